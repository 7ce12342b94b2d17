#pragma once
#include "core/geometry/polygon.h"

namespace slab {

/// What chords cut off rounded corners at most, mm: 0.05 by the arc, and as their number is rounded, up to
/// half a chord more of its turn (1.5² · 0.05).
inline constexpr double roundOffsetError = 0.1125;

/// Regions grown (positive) or shrunk (negative) by `distance` mm with rounded corners: arcs in chords that
/// stay within roundOffsetError of them. Shrinking and growing back rounds inside corners; the other way
/// round, outside ones. By Clipper on a grid of 1e-6 mm.
[[nodiscard]] std::vector<Polygon> roundOffset(const std::vector<Polygon>& regions, double distance);

} // namespace slab
