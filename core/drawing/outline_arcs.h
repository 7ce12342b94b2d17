#pragma once
// Round stretches of an outline that is made of short straight edges.
#include "core/geometry/polygon.h"

namespace slab {

/// Corners `first` to `last` (counted on past the ring's end) lie on a circle.
struct OutlineArc {
    int first = 0, last = 0;
    Vec2 centre = Vec2::Zero(); ///< mm
    double radius = 0;          ///< mm
    bool hollow = false;        ///< the centre is off the board
    bool operator==(const OutlineArc&) const = default;
};
/// The arcs of a counter-clockwise ring: six corners or more within 0.05 mm of one circle, each turn the same
/// way and under 45°. Empty for a full circle.
[[nodiscard]] std::vector<OutlineArc> arcsOf(const Ring& ring);
/// Circle through three points; nothing if they are in line.
[[nodiscard]] std::optional<std::pair<Vec2, double>> circleOf(const Vec2& a, const Vec2& b, const Vec2& c);

} // namespace slab
