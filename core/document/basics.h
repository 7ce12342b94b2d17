#pragma once
// What all parts of the document are made of.
#include "core/formula/formula.h"
#include <string>
#include <utility>
#include <vector>

namespace slab {

using Text = std::string; ///< a formula as typed

/// Unknown JSON fields of one object: name and compact JSON text, in file order.
using Extra = std::vector<std::pair<std::string, std::string>>;

struct NamedText {
    std::string name;
    Text value;
    bool operator==(const NamedText&) const = default;
};

/// Where a thing stands: turned (roll about x, then pitch about y, then yaw about z), then moved.
struct Placement {
    Text x, y, z;          ///< empty = 0
    Text roll, pitch, yaw; ///< empty = 0
    Extra extra;
    bool operator==(const Placement&) const = default;
};

} // namespace slab
