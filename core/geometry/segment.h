#pragma once
// Points and straight stretches between two points.
#include "core/geometry/vec.h"
#include <algorithm>

namespace slab {

/// The point of the stretch from `a` to `b` that is nearest to `p`; `a` where the two are one.
/// @tparam Point  Vec2 or Vec3
template <class Point>
[[nodiscard]] Point nearestOnSegment(const Point& p, const Point& a, const Point& b) {
    const Point along = b - a;
    const double square = along.squaredNorm();
    if (!(square > 0)) return a;
    return a + along * std::clamp((p - a).dot(along) / square, 0.0, 1.0);
}
/// From `p` to that point, mm.
template <class Point>
[[nodiscard]] double toSegment(const Point& p, const Point& a, const Point& b) {
    return (p - nearestOnSegment(p, a, b)).norm();
}

} // namespace slab
