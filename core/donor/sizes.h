#pragma once
// The sizes that a generic donor is built from: generic, measured, typed.
#include "core/donor/donor.h"
#include "core/donor/reading.h"
#include <map>

namespace slab {

using SizeValues = std::map<std::string, double, std::less<>>;

/// Generic sizes of `kind`, with those that the measuring sheet's readings determine, with the document's
/// changes, in that order: the last one wins.
[[nodiscard]] SizeValues readSizes(const Donor& donor, const std::string& kind, Reading& reading);

} // namespace slab
