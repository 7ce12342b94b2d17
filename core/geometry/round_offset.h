#pragma once
#include "core/geometry/polygon.h"

namespace slab {

/// Regions grown (positive) or shrunk (negative) by `distance` mm with rounded corners: arcs in chords that
/// stay within 0.05 mm of them. Shrinking and growing back rounds inside corners; the other way round,
/// outside ones. By Clipper on a grid of 1e-6 mm.
[[nodiscard]] std::vector<Polygon> roundOffset(const std::vector<Polygon>& regions, double distance);

} // namespace slab
