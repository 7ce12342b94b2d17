#pragma once
#include "core/geometry/vec.h"
#include <vector>

namespace slab {

using Ring = std::vector<Vec2>; ///< not closed: last point joins the first

/// A flat region: outer ring counter-clockwise, holes clockwise.
struct Polygon {
    Ring outer;
    std::vector<Ring> holes;
    bool operator==(const Polygon&) const = default;
};

struct Box2 {
    Vec2 min = Vec2::Zero(), max = Vec2::Zero();
    [[nodiscard]] Vec2 size() const { return max - min; }
    bool operator==(const Box2&) const = default;
};
/// The box that holds two boxes.
[[nodiscard]] inline Box2 united(const Box2& a, const Box2& b) {
    return {a.min.cwiseMin(b.min), a.max.cwiseMax(b.max)};
}

/// Area with sign: positive when counter-clockwise. mm².
[[nodiscard]] double signedArea(const Ring& ring);
/// Area of the region, holes taken off. mm².
[[nodiscard]] double area(const Polygon& polygon);
[[nodiscard]] Vec2 centroid(const Polygon& polygon);
[[nodiscard]] Box2 bounds(const Ring& ring);
[[nodiscard]] Ring reversed(Ring ring);
/// Inside or on the border (within eps, mm).
[[nodiscard]] bool contains(const Ring& ring, const Vec2& point, double eps = 0);
[[nodiscard]] bool contains(const Polygon& polygon, const Vec2& point, double eps = 0);
/// True if no two edges cross or touch except neighbours at their shared corner.
[[nodiscard]] bool isSimple(const Ring& ring);
/// Convex hull, counter-clockwise, collinear points dropped.
[[nodiscard]] Ring convexHull(std::vector<Vec2> points);

/// Boolean operations by Clipper on a grid of 1e-6 mm. Results are counter-clockwise outers with clockwise
/// holes.
[[nodiscard]] std::vector<Polygon> unite(const std::vector<Polygon>& polygons);
[[nodiscard]] std::vector<Polygon> intersect(const std::vector<Polygon>& a, const std::vector<Polygon>& b);
[[nodiscard]] std::vector<Polygon> subtract(const std::vector<Polygon>& a, const std::vector<Polygon>& b);
/// Grown (positive) or shrunk (negative) by `distance` mm, corners mitred up to `mitreLimit` times the
/// distance.
[[nodiscard]] std::vector<Polygon> offset(const Polygon& polygon, double distance, double mitreLimit = 2);

} // namespace slab
