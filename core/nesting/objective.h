#pragma once
// What makes one layout better than another.
#include "core/nesting/construct.h"

namespace slab::nesting {

/// Compared in this order: unplaced copies, money, sheets (strip: length), then how little the emptiest sheet
/// holds.
struct Merit {
    int unplaced = 0;
    double cost = 0;
    double count = 0; ///< sheets, or strip length, mm
    double rest = 0;  ///< share of a sheet still used on the emptiest one; less is a larger offcut
    auto operator<=>(const Merit&) const = default;
};
[[nodiscard]] Merit meritOf(const Task& task, const Build& build);

/// The build as plain values, places in the order they were put down.
[[nodiscard]] NestResult resultOf(const Task& task, const Build& build);

} // namespace slab::nesting
