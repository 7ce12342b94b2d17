#include "core/mechanisms/belt_path.h"
#include "core/mechanisms/belt_tangent.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

using mechanisms::BeltEdge;
using mechanisms::normalOf;
using mechanisms::tangentTo;
using mechanisms::turnBetween;

namespace {

constexpr double fullTurn = 2 * std::numbers::pi;
constexpr double sameAngle = 1e-9; ///< radians
constexpr double touching = 1e-6;  ///< mm; a rim this near to the belt touches it

/// The next circle round the hull: the least turn, and of several on one line the nearest.
BeltEdge nextOnHull(const std::vector<BeltCircle>& all, int from, double direction, double& turned) {
    BeltEdge best;
    double least = 2 * fullTurn;
    for (int j = 0; j < static_cast<int>(all.size()); ++j) {
        if (j == from) continue;
        const auto edge = tangentTo(all, from, j);
        if (!edge) continue; // one lies within the other
        const double turn = turnBetween(direction, edge->direction);
        if (turn > least + sameAngle || (turn > least - sameAngle && edge->length >= best.length)) continue;
        best = *edge;
        least = turn;
    }
    turned = least;
    return best;
}

/// Edges of the hull, counter-clockwise; none if all circles lie within one.
std::vector<BeltEdge> hullEdges(const std::vector<BeltCircle>& all) {
    int start = 0;
    for (int i = 1; i < static_cast<int>(all.size()); ++i) {
        const auto& a = all[static_cast<std::size_t>(i)];
        const auto& b = all[static_cast<std::size_t>(start)];
        const double low = a.centre.y() - a.radius, least = b.centre.y() - b.radius;
        // The larger of two that touch the same line: the smaller may lie within it.
        if (low < least - touching || (low < least + touching && a.radius > b.radius)) start = i;
    }
    std::vector<BeltEdge> edges;
    double total = 0, direction = 0;
    int at = start;
    while (edges.size() < 4 * all.size() + 8) {
        double turn = 0;
        const BeltEdge edge = nextOnHull(all, at, direction, turn);
        if (edge.length <= 0) return {};
        total += turn;
        if (!edges.empty() && total > fullTurn - 1e-6 && edge.from == edges[0].from && edge.to == edges[0].to)
            break;
        edges.push_back(edge);
        direction = edge.direction;
        at = edge.to;
    }
    return edges;
}

/// Arc i stands at the start of edge i.
BeltPath pathOf(const std::vector<BeltCircle>& all, const std::vector<BeltEdge>& edges) {
    BeltPath path;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const BeltEdge& before = edges[(i + edges.size() - 1) % edges.size()];
        const BeltEdge& edge = edges[i];
        const BeltCircle& c = all[static_cast<std::size_t>(edge.from)];
        const BeltCircle& next = all[static_cast<std::size_t>(edge.to)];
        const double sweep = c.outside ? -turnBetween(edge.direction, before.direction)
                                       : turnBetween(before.direction, edge.direction);
        const double side = c.outside ? std::numbers::pi / 2 : -std::numbers::pi / 2;
        path.arcs.push_back({edge.from, c.centre, c.radius, before.direction + side, sweep});
        const Vec2 normal = normalOf(edge.direction);
        path.runs.push_back({c.centre - (c.outside ? -c.radius : c.radius) * normal,
                             next.centre - (next.outside ? -next.radius : next.radius) * normal});
        path.length += c.radius * std::abs(sweep) + edge.length;
    }
    return path;
}

double distanceToRun(const BeltPath::Run& run, const Vec2& point) {
    const Vec2 along = run.to - run.from;
    const double t = std::clamp((point - run.from).dot(along) / along.squaredNorm(), 0.0, 1.0);
    return (run.from + t * along - point).norm();
}

/// Wheels inside that the belt does not touch.
std::vector<BeltPath::Off> wheelsOff(const std::vector<BeltCircle>& all, const BeltPath& path) {
    std::vector<BeltPath::Off> off;
    for (int i = 0; i < static_cast<int>(all.size()); ++i) {
        const BeltCircle& c = all[static_cast<std::size_t>(i)];
        const bool on = std::any_of(path.arcs.begin(), path.arcs.end(),
                                    [&](const BeltPath::Arc& a) { return a.wheel == i; });
        if (on) continue;
        double gap = 1e300;
        for (const BeltPath::Run& run : path.runs)
            gap = std::min(gap, distanceToRun(run, c.centre) - c.radius);
        for (const BeltPath::Arc& arc : path.arcs) {
            const Vec2 away = c.centre - arc.centre;
            const double angle = away.norm() < touching ? arc.from : std::atan2(away.y(), away.x());
            if (turnBetween(arc.from, angle) <= arc.sweep)
                gap = std::min(gap, arc.radius - away.norm() - c.radius);
        }
        if (gap > touching) off.push_back({i, gap});
    }
    return off;
}

/// Is the list, either way round, a part of the order in which the belt meets its wheels?
bool inOrder(const BeltPath& path, std::size_t count) {
    std::vector<int> met;
    for (int round = 0; round < 2; ++round) // from any start
        for (const BeltPath::Arc& arc : path.arcs) met.push_back(arc.wheel);
    std::vector<int> listed;
    for (int i = 0; i < static_cast<int>(count); ++i)
        if (std::find(met.begin(), met.end(), i) != met.end()) listed.push_back(i);
    for (int way = 0; way < 2; ++way) {
        for (std::size_t start = 0; start < path.arcs.size(); ++start) {
            std::size_t at = 0;
            for (std::size_t k = start; k < start + path.arcs.size() && at < listed.size(); ++k)
                if (met[k] == listed[at]) ++at;
            if (at == listed.size()) return true;
        }
        std::reverse(listed.begin(), listed.end());
    }
    return false;
}

Expected<BeltPath> hullPath(const std::vector<BeltCircle>& circles) {
    const std::vector<BeltEdge> edges = hullEdges(circles);
    if (edges.size() < 2)
        return fail("belt-wheels-few", "All wheels of the belt lie within one of them.", {},
                    "Move a wheel out, or make it smaller.");
    BeltPath path = pathOf(circles, edges);
    path.off = wheelsOff(circles, path);
    path.reordered = !inOrder(path, circles.size());
    return path;
}

Unexpected crossing(int wheel) {
    return fail("belt-crosses", "In the listed order the belt crosses itself or runs through a wheel.",
                std::to_string(wheel),
                "List the wheels in the order in which the belt meets them, and say of "
                "each on which side of the belt it stands.");
}

/// Tangents in the listed order; wheels outside turn the belt back.
Expected<BeltPath> listedPath(const std::vector<BeltCircle>& circles, const std::vector<int>& order) {
    std::vector<BeltEdge> edges;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const auto edge = tangentTo(circles, order[i], order[(i + 1) % order.size()]);
        if (!edge)
            return fail("belt-wheels-meet", "Two wheels of the belt leave it no way between them.",
                        std::to_string(order[i]), "Move the two wheels apart.");
        edges.push_back(*edge);
    }
    BeltPath path = pathOf(circles, edges);
    double turn = 0;
    for (const BeltPath::Arc& arc : path.arcs) turn += arc.sweep;
    for (const BeltPath::Arc& arc : path.arcs) // the belt would go almost all the way round it, or come loose
        if (std::abs(arc.sweep) > 1.5 * std::numbers::pi) return crossing(arc.wheel);
    if (std::abs(turn - fullTurn) > 1e-6) return crossing(order[0]);
    for (int i = 0; i < static_cast<int>(circles.size()); ++i)
        for (const BeltPath::Run& run : path.runs) {
            const BeltCircle& c = circles[static_cast<std::size_t>(i)];
            if (distanceToRun(run, c.centre) < c.radius - touching) return crossing(i);
        }
    if (!isSimple(beltLine(path, 0.1))) return crossing(order[0]);
    return path;
}

} // namespace

Expected<BeltPath> beltPath(const std::vector<BeltCircle>& circles) {
    if (circles.size() < 2)
        return fail("belt-wheels-few", "A belt needs at least two wheels.", {}, "Add a wheel.");
    for (std::size_t i = 0; i < circles.size(); ++i)
        if (!(circles[i].radius > 0) || !std::isfinite(circles[i].radius) || !circles[i].centre.allFinite())
            return fail("belt-wheel-size", "A wheel of the belt has no size.", std::to_string(i),
                        "Give the wheel a diameter above zero.");
    const bool outside =
        std::any_of(circles.begin(), circles.end(), [](const BeltCircle& c) { return c.outside; });
    if (!outside) return hullPath(circles);
    std::vector<int> order(circles.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    auto path = listedPath(circles, order);
    std::reverse(order.begin(), order.end());
    auto other = listedPath(circles, order);
    if (path && other) return path->length <= other->length ? path : other;
    return path ? path : other ? other : path;
}

Ring beltLine(const BeltPath& path, double step) {
    Ring line;
    const auto add = [&](const Vec2& p) {
        if (line.empty() || (line.back() - p).norm() > touching) line.push_back(p);
    };
    for (std::size_t i = 0; i < path.arcs.size(); ++i) {
        const BeltPath::Arc& arc = path.arcs[i];
        const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / step)));
        for (int k = 0; k <= parts; ++k) {
            const double a = arc.from + arc.sweep * k / parts;
            add(arc.centre + arc.radius * Vec2(std::cos(a), std::sin(a)));
        }
    }
    if (line.size() > 1 && (line.front() - line.back()).norm() <= touching) line.pop_back();
    return line;
}

BeltPlace beltPlace(const BeltPath& path, double distance) {
    distance = std::fmod(distance, path.length);
    if (distance < 0) distance += path.length;
    for (std::size_t i = 0; i < path.runs.size(); ++i) {
        const BeltPath::Run& run = path.runs[i];
        const double length = (run.to - run.from).norm();
        const Vec2 along = (run.to - run.from) / length;
        if (distance <= length) return {run.from + distance * along, along};
        distance -= length;
        const BeltPath::Arc& arc = path.arcs[(i + 1) % path.arcs.size()];
        const double round = arc.radius * std::abs(arc.sweep);
        if (distance <= round && round > 0) {
            const double a = arc.from + arc.sweep * distance / round;
            const Vec2 out(std::cos(a), std::sin(a));
            return {arc.centre + arc.radius * out,
                    arc.sweep > 0 ? Vec2(-out.y(), out.x()) : Vec2(out.y(), -out.x())};
        }
        distance -= round;
    }
    const BeltPath::Run& first = path.runs.front();
    return {first.from, (first.to - first.from).normalized()};
}

} // namespace slab
