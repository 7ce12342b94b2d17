#include "core/geometry/convex.h"
#include "core/geometry/convex_hull.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// Half-extent of a disc of unit radius with axis u, along each body axis.
Vec3 discExtent(const Vec3& u) {
    return (Vec3::Ones() - u.cwiseAbs2()).cwiseMax(0).cwiseSqrt();
}

/// Two unit vectors that complete u to a right-handed frame.
std::pair<Vec3, Vec3> across(const Vec3& u) {
    const Vec3 v = u.unitOrthogonal();
    return {v, u.cross(v)};
}

Polyhedron cylinderFacets(const ConvexSolid& solid, int segments) {
    const Vec3 u = (solid.points[1] - solid.points[0]).normalized();
    const auto [v, w] = across(u);
    Polyhedron out;
    const int n = segments;
    for (int end = 0; end < 2; ++end)
        for (int i = 0; i < n; ++i) {
            const double a = 2 * std::numbers::pi * i / n;
            out.vertices.push_back(solid.points[static_cast<std::size_t>(end)] +
                                   solid.radius * (std::cos(a) * v + std::sin(a) * w));
        }
    PolyFace base, top;
    base.plane = {-u, -u.dot(solid.points[0])};
    top.plane = {u, u.dot(solid.points[1])};
    base.name = "base";
    top.name = "top";
    base.loops.resize(1);
    top.loops.resize(1);
    for (int i = 0; i < n; ++i) {
        base.loops[0].push_back(n - 1 - i);
        top.loops[0].push_back(n + i);
        const double a = 2 * std::numbers::pi * (i + 0.5) / n;
        PolyFace side;
        side.plane.normal = std::cos(a) * v + std::sin(a) * w;
        side.plane.offset = side.plane.normal.dot(out.vertices[static_cast<std::size_t>(i)]);
        side.loops = {{i, (i + 1) % n, n + (i + 1) % n, n + i}};
        side.name = "side";
        out.faces.push_back(std::move(side));
    }
    out.faces.push_back(std::move(base));
    out.faces.push_back(std::move(top));
    return out;
}

/// Corners of a ball's facets round the core points; their hull is the picture of the rounded solid.
std::vector<Vec3> roundedPoints(const ConvexSolid& solid, int segments) {
    Vec3 pole = Vec3::UnitZ();
    if (solid.points.size() == 2 && solid.points[0] != solid.points[1])
        pole = (solid.points[1] - solid.points[0]).normalized();
    const auto [v, w] = across(pole);
    const int bands = std::max(2, segments / 4) * 2;
    std::vector<Vec3> out;
    // A facet's corner counts only where its core point is the farthest that way; the others lie inside.
    const auto add = [&](const Vec3& d) {
        double reach = -INFINITY;
        for (const Vec3& p : solid.points) reach = std::max(reach, d.dot(p));
        for (const Vec3& p : solid.points)
            if (d.dot(p) >= reach - 1e-9 * solid.radius) out.push_back(p + solid.radius * d);
    };
    add(pole);
    add(-pole);
    for (int b = 1; b < bands; ++b) {
        const double lat = std::numbers::pi * b / bands;
        for (int i = 0; i < segments; ++i) {
            const double a = 2 * std::numbers::pi * i / segments;
            add(std::cos(lat) * pole + std::sin(lat) * (std::cos(a) * v + std::sin(a) * w));
        }
    }
    return out;
}

} // namespace

Box3 bounds(const ConvexSolid& solid) {
    Box3 box;
    if (solid.points.empty()) return box;
    box.min = box.max = solid.points.front();
    for (const Vec3& p : solid.points) {
        box.min = box.min.cwiseMin(p);
        box.max = box.max.cwiseMax(p);
    }
    Vec3 grow = Vec3::Constant(solid.radius);
    if (solid.kind == ConvexSolid::Kind::cylinder && solid.points.size() == 2) {
        const Vec3 axis = solid.points[1] - solid.points[0];
        if (axis.norm() > 0) grow = solid.radius * discExtent(axis.normalized());
    }
    box.min -= grow;
    box.max += grow;
    return box;
}

ConvexSolid translated(ConvexSolid solid, const Vec3& by) {
    for (Vec3& p : solid.points) p += by;
    return solid;
}

Polyhedron toPolyhedron(const ConvexSolid& solid, int segments) {
    segments = std::max(segments, 3);
    if (solid.kind == ConvexSolid::Kind::cylinder)
        return solid.points.size() == 2 && solid.points[0] != solid.points[1]
                   ? cylinderFacets(solid, segments)
                   : Polyhedron{};
    return solid.radius > 0 ? convexHull3(roundedPoints(solid, segments)) : convexHull3(solid.points);
}

ConvexSolid makeBoxSolid(const Vec3& min, const Vec3& max) {
    ConvexSolid box;
    for (int i = 0; i < 8; ++i)
        box.points.emplace_back((i & 1 ? max : min).x(), (i & 2 ? max : min).y(), (i & 4 ? max : min).z());
    return box;
}

ConvexSolid makeCapsule(const Vec3& from, const Vec3& to, double radius) {
    return {ConvexSolid::Kind::hull, {from, to}, radius};
}

ConvexSolid makeCylinder(const Vec3& from, const Vec3& to, double radius) {
    return {ConvexSolid::Kind::cylinder, {from, to}, radius};
}

} // namespace slab
