#pragma once
#include "core/geometry/polygon.h"
#include <array>

namespace slab {

/// Triangles of a polygon with holes, counter-clockwise, as indices into the outer ring's points followed by
/// the holes' points in order. Ear clipping, holes bridged to the outer ring first; no point is added or
/// dropped.
/// @source  D. Eberly, "Triangulation by Ear Clipping", Geometric Tools (2002)
[[nodiscard]] std::vector<std::array<int, 3>> triangulate(const Polygon& polygon);

} // namespace slab
