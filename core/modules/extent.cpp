#include "core/modules/extent.h"
#include "core/geometry/convex_hull.h"
#include "core/geometry/polygon.h"
#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

namespace slab {

namespace {

constexpr double quarter = std::numbers::pi / 2;

/// Two directions square to a way and to each other.
std::pair<Vec3, Vec3> squareTo(const Vec3& way) {
    const Vec3 u = way.unitOrthogonal();
    return {u, way.cross(u)};
}

/// A projection: hull of the points seen along a way, with its own axes.
struct Seen {
    Vec3 u, v;
    Ring hull;
};

Seen seenAlong(const std::vector<Vec3>& points, const Vec3& way) {
    Seen seen;
    std::tie(seen.u, seen.v) = squareTo(way);
    std::vector<Vec2> flat;
    flat.reserve(points.size());
    for (const Vec3& p : points) flat.emplace_back(seen.u.dot(p), seen.v.dot(p));
    seen.hull = convexHull(flat);
    if (seen.hull.size() < 2) seen.hull = flat;
    return seen;
}

Vec2 sizeAt(const Ring& hull, double angle) {
    const Vec2 a(std::cos(angle), std::sin(angle)), b(-a.y(), a.x());
    Vec2 low(1e300, 1e300), high = -low;
    for (const Vec2& p : hull) {
        const Vec2 here(a.dot(p), b.dot(p));
        low = low.cwiseMin(here);
        high = high.cwiseMax(here);
    }
    return high - low;
}

/// Directions of the hull's sides, as turns in [0, quarter], ends included, in order.
std::vector<double> turnsOf(const Ring& hull) {
    std::vector<double> turns{0, quarter};
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 d = hull[(i + 1) % hull.size()] - hull[i];
        if (d.norm() > 1e-12) turns.push_back(std::fmod(std::atan2(d.y(), d.x()) + 4 * quarter, quarter));
    }
    std::sort(turns.begin(), turns.end());
    return turns;
}

/// The best turn in a rectangle, for one way.
struct Turned {
    double margin = -1e300, angle = 0;
    Vec2 size = Vec2::Zero();
};

void tryTurn(const Ring& hull, double angle, const Vec2& room, Turned& best) {
    const Vec2 size = sizeAt(hull, angle);
    for (const bool swap : {false, true}) {
        const Vec2 here = swap ? Vec2(size.y(), size.x()) : size;
        const double margin = (room - here).minCoeff();
        if (margin <= best.margin) continue;
        best = {margin, swap ? angle + quarter : angle, here};
    }
}

Turned bestTurn(const Ring& hull, const Vec2& room) {
    Turned best;
    const std::vector<double> turns = turnsOf(hull);
    for (const double t : turns) tryTurn(hull, t, room, best);
    for (std::size_t i = 0; i + 1 < turns.size(); ++i)
        for (const bool swap : {false, true}) {
            // Within an arc both extents are sinusoids; where the margins cross the lesser one peaks.
            const auto gap = [&](double t) {
                const Vec2 s = sizeAt(hull, t);
                return swap ? (room.x() - s.y()) - (room.y() - s.x())
                            : (room.x() - s.x()) - (room.y() - s.y());
            };
            double a = turns[i], b = turns[i + 1];
            if (b - a < 1e-9) continue;
            const double ga = gap(a);
            if ((ga > 0) == (gap(b) > 0)) continue;
            for (int k = 0; k < 40; ++k) {
                const double m = (a + b) / 2;
                ((gap(m) > 0) == (ga > 0) ? a : b) = m;
            }
            tryTurn(hull, (a + b) / 2, room, best);
        }
    return best;
}

/// Directions worth a look: face normals and edges of the hull, and an even spread.
std::vector<Vec3> startsOf(const Polyhedron& hull) {
    std::vector<Vec3> ways;
    const auto add = [&](const Vec3& way) {
        if (way.norm() < 1e-9) return;
        const Vec3 unit = way.normalized();
        if (std::none_of(ways.begin(), ways.end(),
                         [&](const Vec3& w) { return std::abs(w.dot(unit)) > 1 - 1e-6; }))
            ways.push_back(unit);
    };
    for (int i = 0; i < 3; ++i) add(Vec3::Unit(i));
    constexpr std::size_t most = 150;
    for (const PolyFace& f : hull.faces)
        if (ways.size() < most) add(f.plane.normal);
    for (const PolyFace& f : hull.faces)
        for (std::size_t i = 0; i < f.loops.front().size() && ways.size() < 2 * most; ++i) {
            const auto& loop = f.loops.front();
            add(hull.vertices[static_cast<std::size_t>(loop[(i + 1) % loop.size()])] -
                hull.vertices[static_cast<std::size_t>(loop[i])]);
        }
    constexpr int spread = 40; // of half a sphere
    for (int i = 0; i < spread; ++i) {
        const double z = (i + 0.5) / spread, a = i * std::numbers::pi * (3 - std::sqrt(5.0));
        const double r = std::sqrt(1 - z * z);
        ways.emplace_back(r * std::cos(a), r * std::sin(a), z);
    }
    return ways;
}

using Score = std::function<double(const Vec3&)>;

/// Climbs from a way by steps in twelve directions, halved when none helps.
std::pair<double, Vec3> climbed(const Score& score, Vec3 way, double value) {
    constexpr int around = 12, moves = 6;
    for (double step = 0.12; step > 1e-6; step *= 0.4) {
        bool better = true;
        for (int move = 0; move < moves && better; ++move) {
            better = false;
            const auto [u, v] = squareTo(way);
            Vec3 next = way;
            for (int k = 0; k < around; ++k) {
                const double a = 2 * std::numbers::pi * k / around;
                const Vec3 there = (way + step * (std::cos(a) * u + std::sin(a) * v)).normalized();
                const double here = score(there);
                if (here <= value + 1e-9 * (1 + std::abs(value))) continue;
                value = here;
                next = there;
                better = true;
            }
            way = next;
        }
    }
    return {value, way};
}

/// The way with the highest score: the best starts, refined.
Vec3 bestWay(const Polyhedron& hull, const Score& score) {
    std::vector<std::pair<double, Vec3>> starts;
    for (const Vec3& way : startsOf(hull)) starts.emplace_back(score(way), way);
    std::stable_sort(starts.begin(), starts.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    constexpr std::size_t refined = 3;
    std::pair<double, Vec3> best = starts.front();
    for (std::size_t i = 0; i < starts.size() && i < refined; ++i) {
        const auto here = climbed(score, starts[i].second, starts[i].first);
        if (here.first > best.first) best = here;
    }
    return best.second;
}

/// Points, or the corners of their hull where they span one.
std::vector<Vec3> cornersOf(const std::vector<Vec3>& points, Polyhedron& hull) {
    hull = convexHull3(points);
    return hull.vertices.empty() ? points : hull.vertices;
}

} // namespace

LeastBox leastBox(const std::vector<Vec3>& points) {
    LeastBox box;
    if (points.empty()) return box;
    Polyhedron hull;
    const std::vector<Vec3> corners = cornersOf(points, hull);
    const auto boxAlong = [&](const Vec3& way) {
        const Seen seen = seenAlong(corners, way);
        double low = 1e300, high = -1e300;
        for (const Vec3& p : corners) {
            low = std::min(low, way.dot(p));
            high = std::max(high, way.dot(p));
        }
        LeastBox least;
        double area = 1e300;
        for (const double t : turnsOf(seen.hull)) {
            const Vec2 size = sizeAt(seen.hull, t);
            if (size.prod() >= area) continue;
            area = size.prod();
            least.size = {size.x(), size.y(), high - low};
            least.axes.col(0) = std::cos(t) * seen.u + std::sin(t) * seen.v;
            least.axes.col(1) = -std::sin(t) * seen.u + std::cos(t) * seen.v;
            least.axes.col(2) = way;
        }
        return least;
    };
    box = boxAlong(bestWay(hull, [&](const Vec3& way) { return -boxAlong(way).size.prod(); }));
    for (const auto& [a, b] : {std::pair(0, 1), std::pair(1, 2), std::pair(0, 1)}) // longest first
        if (box.size[a] < box.size[b]) {
            std::swap(box.size[a], box.size[b]);
            const Vec3 axis = box.axes.col(a);
            box.axes.col(a) = box.axes.col(b);
            box.axes.col(b) = axis;
        }
    return box;
}

Passing bestPassing(const std::vector<Vec3>& points, double width, double height) {
    Passing passing;
    if (points.empty()) return passing;
    Polyhedron hull;
    const std::vector<Vec3> corners = cornersOf(points, hull);
    const Vec2 room(width, height);
    const Vec3 way =
        bestWay(hull, [&](const Vec3& w) { return bestTurn(seenAlong(corners, w).hull, room).margin; });
    const Seen seen = seenAlong(corners, way);
    const Turned turned = bestTurn(seen.hull, room);
    passing.margin = turned.margin;
    passing.needs = turned.size;
    passing.way = way;
    passing.across = std::cos(turned.angle) * seen.u + std::sin(turned.angle) * seen.v;
    return passing;
}

bool rectangleFits(double p, double q, double P, double Q) {
    if (p < q) std::swap(p, q);
    if (P < Q) std::swap(P, Q);
    if (p <= P) return q <= Q;
    if (q > Q) return false;
    const double square = p * p + q * q;
    return Q >= (2 * p * q * P + (p * p - q * q) * std::sqrt(square - P * P)) / square;
}

} // namespace slab
