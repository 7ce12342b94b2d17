#include "core/board/silhouette.h"
#include <cmath>
#include <numbers>

namespace slab::detail {

Ring silhouette(const ConvexSolid& solid, BoardView view) {
    constexpr int facets = 32;
    std::vector<Vec2> points;
    const auto turn = [&](int i) { return 2 * std::numbers::pi * i / facets; };
    if (solid.kind == ConvexSolid::Kind::cylinder && solid.points.size() == 2) {
        const Vec3 axis = (solid.points[1] - solid.points[0]).normalized(), u = axis.unitOrthogonal(),
                   v = axis.cross(u);
        for (const Vec3& p : solid.points)
            for (int i = 0; i < facets; ++i)
                points.push_back(
                    seen(p + solid.radius * (u * std::cos(turn(i)) + v * std::sin(turn(i))), view));
        return convexHull(std::move(points));
    }
    for (const Vec3& p : solid.points) {
        points.push_back(seen(p, view));
        if (solid.radius > 0)
            for (int i = 0; i < facets; ++i)
                points.push_back(seen(p, view) + solid.radius * Vec2(std::cos(turn(i)), std::sin(turn(i))));
    }
    return convexHull(std::move(points));
}

} // namespace slab::detail
