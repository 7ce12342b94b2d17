#pragma once
// Where the corners of a board lie, from one datum: what it is marked out by without a template.
#include "core/drawing/tables.h"
#include "core/plates/plate.h"
#include "core/units/units.h"

namespace slab {

/// Corners of a ring that the table tells, by index: none of a round one or a level box, nor such as lie
/// within a stretch that follows a circle.
[[nodiscard]] std::vector<std::size_t> toldCorners(const Ring& ring);

/// Corners of the outline and of those openings that neither a diameter nor a box tells, and the circles that
/// round stretches follow. Empty for a round board and for a
/// level box: the overall size says it.
[[nodiscard]] std::vector<Table> cornerTables(const Panel& panel, const UnitStyle& units);

} // namespace slab
