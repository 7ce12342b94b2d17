#pragma once
// A flat board with square edges as convex cells.
#include "core/geometry/polygon.h"
#include "core/plates/cell.h"

namespace slab::plates {

/// The outline itself when it is convex, else its triangles.
[[nodiscard]] std::vector<Ring> convexParts(const Polygon& outline);
/// Prisms that fill the outline from w = 0 of the frame down to w = -thickness: one for a convex outline,
/// else one for each of its triangles.
/// @param outer  set to the half-space below the outside face
/// @param inner  set to the half-space above the inside face
[[nodiscard]] Cells prisms(PlaneTable& planes, const Frame& frame, const Polygon& outline, double thickness,
                           Half& outer, Half& inner);

} // namespace slab::plates
