// Whether a board on its way meets another.
#include "core/frames/assembly.h"
#include "core/frames/section.h"
#include "core/plates/prisms.h"
#include <algorithm>
#include <cmath>

namespace slab::frames {

namespace {

constexpr double farAway = 1e5;    ///< mm: beyond every other board
constexpr double narrow = 0.01;    ///< mm: overlaps that do not count
constexpr double leastArea = 1e-6; ///< mm²

/// Height of a board's middle plane over another's slab, as a function of its u and v.
struct Slope {
    Vec2 rise = Vec2::Zero();
    double at0 = 0;
    double reach = 0; ///< of what lies within both thicknesses
    Slope(const FrameChoice& board, const BoardSlab& slab) {
        const Vec3 w = slab.frame.axes.col(2);
        const Vec3 local = board.place.axes.transpose() * w;
        rise = local.head<2>();
        at0 = w.dot(board.place.origin - slab.frame.origin);
        reach = slab.half + board.thickness / 2 * std::abs(local.z());
    }
    [[nodiscard]] double at(const Vec2& p) const { return rise.dot(p) + at0; }
};

bool reaches(const Slope& slope, const std::vector<Polygon>& regions) {
    double low = 1e300, high = -1e300;
    for (const Polygon& p : regions)
        for (const Vec2& q : p.outer) {
            const double h = slope.at(q);
            low = std::min(low, h);
            high = std::max(high, h);
        }
    return low < slope.reach && high > -slope.reach;
}

/// What of a board can lie within the slab, in its own plane.
std::vector<Polygon> within(const Slope& slope, const std::vector<Polygon>& regions) {
    const double sine = slope.rise.norm();
    if (sine < 1e-9) return regions;
    const Vec2 across = slope.rise / sine, along(-across.y(), across.x());
    const Vec2 middle = -slope.at0 / sine * across;
    const double half = slope.reach / sine;
    if (half > farAway) return regions;
    const Ring band{middle - half * across - farAway * along, middle + half * across - farAway * along,
                    middle + half * across + farAway * along, middle - half * across + farAway * along};
    return intersect(regions, {{band, {}}});
}

/// Shadow of a board in the slab, as convex rings.
std::vector<Ring> shadows(const Piece& piece, const BoardSlab& slab) {
    const FrameChoice& c = *piece.choice;
    const Slope slope(c, slab);
    std::vector<Ring> rings;
    if (!reaches(slope, piece.regions)) return rings;
    for (const Polygon& region : within(slope, piece.regions))
        for (const Ring& part : plates::convexParts(region)) {
            std::vector<Vec3> points;
            std::vector<std::pair<int, int>> edges;
            const int n = static_cast<int>(part.size());
            for (const double level : {c.thickness / 2, -c.thickness / 2})
                for (const Vec2& p : part) points.push_back(c.place.toBody(Vec3(p.x(), p.y(), level)));
            for (int i = 0; i < n; ++i) {
                edges.emplace_back(i, (i + 1) % n);
                edges.emplace_back(n + i, n + (i + 1) % n);
                edges.emplace_back(i, n + i);
            }
            if (Ring ring = shadowOf(points, edges, slab); !ring.empty()) rings.push_back(std::move(ring));
        }
    return rings;
}

/// What the play of a press fit is short of on either side, and rounding.
double ignored(const FrameChoice& a, const FrameChoice& b) {
    const double sine = std::max(a.place.axes.col(2).cross(b.place.axes.col(2)).norm(), 0.1);
    return narrow / 2 + std::max({0.0, -a.fit, -b.fit}) / 2 / sine;
}

/// Half the thickness of what must go through the other's slots: a press fit pushes the rest aside.
double halfThrough(const Piece& moves, const Piece& stands) {
    const double pressed = std::max(0.0, -stands.choice->fit) + (stands.choice->fit < 0 ? narrow : 0);
    return std::max(moves.choice->thickness - pressed, 0.0) / 2;
}

bool overlap(const std::vector<Polygon>& regions, const std::vector<Polygon>& rings, double shrink) {
    for (const Polygon& p : intersect(regions, rings))
        if (area(p) > leastArea && !offset(p, -shrink).empty()) return true;
    return false;
}

bool meets(const Piece& stands, const Piece& moves, const BoardSlab& swept, const Vec2& back) {
    std::vector<Polygon> rings;
    for (Ring& ring : shadows(stands, swept)) {
        if (back.norm() > 0) {
            const std::size_t n = ring.size();
            for (std::size_t i = 0; i < n; ++i) ring.push_back(ring[i] + back);
            ring = convexHull(std::move(ring));
        }
        rings.push_back({std::move(ring), {}});
    }
    return !rings.empty() && overlap(moves.regions, rings, ignored(*stands.choice, *moves.choice));
}

} // namespace

bool barsWay(const Piece& stands, const Piece& moves, const Vec3& from) {
    const FrameChoice& c = *moves.choice;
    const Vec3 own = c.place.axes.transpose() * from;
    BoardSlab slab{c.place, halfThrough(moves, stands)};
    // In its own plane the board meets what it would meet at home if that came the other way; square to its
    // plane it sweeps a thicker board.
    if (std::abs(own.z()) < 0.5) return meets(stands, moves, slab, -farAway * own.head<2>());
    slab.frame.origin += from * (farAway / 2);
    slab.half += farAway / 2;
    return meets(stands, moves, slab, Vec2::Zero());
}

bool standsIn(const Piece& a, const Piece& b) {
    return meets(a, b, {b.choice->place, halfThrough(b, a)}, Vec2::Zero());
}

} // namespace slab::frames
