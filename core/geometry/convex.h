#pragma once
// Convex solids for live distances: a hull of core points grown by a radius, or an exact cylinder.
#include "core/geometry/polyhedron.h"
#include <optional>

namespace slab {

/// A convex solid given by what bounds it.
///
/// `hull` + `radius`: all points within `radius` of the convex hull of `points` (box: 8 points, radius 0;
/// capsule: 2 points). `cylinder`: axis from points[0] to points[1], flat ends, `radius`.
struct ConvexSolid {
    enum class Kind { hull, cylinder };
    Kind kind = Kind::hull;
    std::vector<Vec3> points;
    double radius = 0;
    bool operator==(const ConvexSolid&) const = default;
};

struct Nearest {
    double distance = 0;                         ///< mm; 0 when they touch or meet
    Vec3 onA = Vec3::Zero(), onB = Vec3::Zero(); ///< nearest points; when they meet, a common point in both
    bool meets = false;
    double depth = 0; ///< least way out when they meet, mm (0 otherwise)
};

/// Least distance between two convex solids, exact to 1e-9 of their size for polyhedra and capsules, to 1e-7
/// mm for cylinders.
[[nodiscard]] Nearest nearest(const ConvexSolid& a, const ConvexSolid& b);
[[nodiscard]] Box3 bounds(const ConvexSolid& solid);
[[nodiscard]] ConvexSolid translated(ConvexSolid solid, const Vec3& by);
/// Axis-aligned box between two corners, as a hull of 8 points.
[[nodiscard]] ConvexSolid makeBoxSolid(const Vec3& min, const Vec3& max);
/// All points within `radius` of the segment.
[[nodiscard]] ConvexSolid makeCapsule(const Vec3& from, const Vec3& to, double radius);
/// Flat-ended cylinder about the segment.
[[nodiscard]] ConvexSolid makeCylinder(const Vec3& from, const Vec3& to, double radius);
/// Planar-faced stand-in for pictures; curved parts in `segments` facets.
[[nodiscard]] Polyhedron toPolyhedron(const ConvexSolid& solid, int segments = 24);

} // namespace slab
