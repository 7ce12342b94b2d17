#pragma once
// Round shapes as polygons.
#include "core/geometry/polygon.h"

namespace slab::plates {

/// Greatest distance from a facet to its true circle, mm.
inline constexpr double chordError = 0.05;
/// Facets of a full circle so that the chord error stays below 0.05 mm; a multiple of 4, at least 16.
[[nodiscard]] int facetsOf(double radius);
/// Circle around (0, 0), counter-clockwise; corners lie on the circle.
[[nodiscard]] Ring circleRing(double radius);
/// Rectangle around (0, 0), corners rounded by `radius`, counter-clockwise.
[[nodiscard]] Ring roundedRing(double width, double height, double radius);

} // namespace slab::plates
