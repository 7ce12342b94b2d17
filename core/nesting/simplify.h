#pragma once
#include "core/geometry/polygon.h"

namespace slab::nesting {

/// Fewer corners, never less material: corners that point inward are cut across, short sides between corners
/// that point outward are replaced by the corner of their neighbours, cheapest first.
/// @param budget  greatest area that may be added, mm²
/// @return a simple ring of the same direction that covers the same material (material on the left of travel)
[[nodiscard]] Ring simplifiedOutward(Ring ring, double& budget);

/// Outer ring and holes; at most `share` of the area is added; polygons of at most `plain` corners stay as
/// they are.
[[nodiscard]] Polygon simplifiedOutward(const Polygon& polygon, double share, std::size_t plain);

} // namespace slab::nesting
