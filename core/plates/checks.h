#pragma once
#include "core/plates/plate.h"
#include "core/plates/shell.h"

namespace slab::plates {

/// Findings about choices that cannot be built as asked: thickness, almost flat edges, inner steps.
void checkChoices(const Shell& shell, std::vector<Finding>& findings);
/// Findings read off the finished plates: bevels past 45°, thin bodies.
void checkPlates(PlateSet& set);

} // namespace slab::plates
