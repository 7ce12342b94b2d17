#pragma once
// Millimetres and radians everywhere inside core. Axes (ISO 8855 directions): x forward, y left, z up.
#include <Eigen/Core>
#include <Eigen/Geometry>
#include <vector>

namespace slab {

using Vec2 = Eigen::Vector2d;
using Vec3 = Eigen::Vector3d;
using Mat3 = Eigen::Matrix3d;

[[nodiscard]] inline double cross2(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

/// Half-space boundary: points with normal·x = offset. `normal` is of unit length and points out of the solid.
struct Plane {
    Vec3 normal = Vec3::UnitZ();
    double offset = 0;
    /// Signed distance, positive on the side the normal points to (outside).
    [[nodiscard]] double distance(const Vec3& p) const { return normal.dot(p) - offset; }
    /// How far p lies inside: the design's depth_f(x).
    [[nodiscard]] double depth(const Vec3& p) const { return offset - normal.dot(p); }
    bool operator==(const Plane&) const = default;
};

/// A right-handed frame: panel coordinates (u, v, w) to body coordinates. w points out of the body.
struct Frame {
    Vec3 origin = Vec3::Zero();
    Mat3 axes = Mat3::Identity(); ///< columns u, v, w
    [[nodiscard]] Vec3 toBody(const Vec3& p) const { return origin + axes * p; }
    [[nodiscard]] Vec3 toBody(const Vec2& p) const { return origin + axes.col(0) * p.x() + axes.col(1) * p.y(); }
    [[nodiscard]] Vec3 toLocal(const Vec3& p) const { return axes.transpose() * (p - origin); }
    [[nodiscard]] Vec2 toPlane(const Vec3& p) const { return toLocal(p).head<2>(); }
    bool operator==(const Frame&) const = default;
};

} // namespace slab
