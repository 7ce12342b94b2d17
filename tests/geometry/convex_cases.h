#pragma once
// Random convex solids, and slow but plain distances to judge the quick ones by.
#include "core/geometry/convex.h"
#include "core/geometry/convex_hull.h"
#include "tests/geometry/seed.h"

namespace slab {

inline Vec3 randomPoint(std::mt19937_64& random, double size) {
    const double x = uniform(random, -size, size), y = uniform(random, -size, size);
    return {x, y, uniform(random, -size, size)};
}

/// 0 box, 1 plate-like prism at any angle, 2 capsule or rounded triangle, 3 cylinder.
inline ConvexSolid randomSolid(std::mt19937_64& random, int kind, double spread = 600) {
    const Vec3 at = randomPoint(random, spread);
    const Vec3 d = randomPoint(random, 150);
    if (kind == 0) {
        const Vec3 half(uniform(random, 5, 250), uniform(random, 5, 250), uniform(random, 5, 250));
        return makeBoxSolid(at - half, at + half);
    }
    if (kind == 1) {
        const Vec3 u = d.unitOrthogonal(), v = d.normalized().cross(u);
        const double t = uniform(random, 3, 50);
        const int n = 3 + below(random, 6);
        ConvexSolid s;
        for (int i = 0; i < n; ++i) {
            const double a = 6.283185307179586 * (i + uniform(random, 0, 0.6)) / n,
                         r = uniform(random, 200, 300);
            const Vec3 p = at + r * std::cos(a) * u + 0.6 * r * std::sin(a) * v;
            s.points.push_back(p);
            s.points.push_back(p - t * d.normalized());
        }
        return s;
    }
    if (kind == 2) {
        ConvexSolid s = makeCapsule(at, at + d, uniform(random, 5, 80));
        if (below(random, 2)) s.points.push_back(at + randomPoint(random, 150));
        return s;
    }
    return makeCylinder(at - d, at + d, uniform(random, 5, 200));
}

/// Greatest d·x over a solid, written out anew.
inline double supportOf(const ConvexSolid& s, const Vec3& d) {
    double best = -1e300;
    for (const Vec3& p : s.points) best = std::max(best, d.dot(p));
    if (s.kind == ConvexSolid::Kind::hull) return best + s.radius * d.norm();
    const Vec3 u = (s.points[1] - s.points[0]).normalized();
    return best + s.radius * d.cross(u).norm();
}

} // namespace slab
