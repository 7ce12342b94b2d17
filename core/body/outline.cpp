#include "core/body/outline.h"
#include "core/geometry/crossing.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

Ring ringOf(const Corners& corners) {
    Ring ring;
    ring.reserve(corners.size());
    for (const Corner& c : corners) ring.push_back(c.at);
    return ring;
}

int facetsFor(double chord, double bulge, double tolerance) {
    const double s = std::abs(bulge);
    if (s <= tolerance || chord <= 0 || tolerance <= 0) return 1;
    const double radius = chord * chord / (8 * s) + s / 2;
    const double angle = 4 * std::atan(2 * s / chord);
    const double each = 2 * std::acos(std::max(-1.0, 1 - tolerance / radius));
    return std::max(1, static_cast<int>(std::ceil(angle / each - 1e-9)));
}

std::vector<Vec2> arcPoints(const Vec2& from, const Vec2& to, const Vec2& outward, double bulge, int facets) {
    std::vector<Vec2> points;
    const double chord = (to - from).norm(), s = std::abs(bulge);
    if (chord == 0 || s == 0) {
        for (int i = 1; i < facets; ++i) points.push_back(from + (to - from) * (double(i) / facets));
        return points;
    }
    const double radius = chord * chord / (8 * s) + s / 2, angle = 4 * std::atan(2 * s / chord);
    const Vec2 along = (to - from) / chord, out = bulge > 0 ? outward : Vec2(-outward);
    const Vec2 centre = (from + to) / 2 + out * (s - radius);
    for (int i = 1; i < facets; ++i) {
        const double a = angle * (double(i) / facets - 0.5);
        points.push_back(centre + radius * (std::sin(a) * along + std::cos(a) * out));
    }
    return points;
}

double deviationOf(double chord, double bulge, int facets) {
    const double s = std::abs(bulge);
    if (s == 0 || chord <= 0 || facets < 1) return 0;
    const double radius = chord * chord / (8 * s) + s / 2;
    return radius * (1 - std::cos(2 * std::atan(2 * s / chord) / facets));
}

Corners withArcs(const Corners& corners, const std::vector<Arc>& arcs) {
    const double direction = signedArea(ringOf(corners)) < 0 ? -1 : 1;
    Corners result;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Corner &a = corners[i], &b = corners[(i + 1) % corners.size()];
        result.push_back(a);
        const auto arc = std::find_if(arcs.begin(), arcs.end(), [&](const Arc& c) { return c.edge == i; });
        if (arc == arcs.end() || arc->facets < 2) continue;
        const Vec2 chord = b.at - a.at;
        const double length = chord.norm();
        Vec2 outward = Vec2::Zero();
        if (length > 0) outward = direction * Vec2(chord.y(), -chord.x()) / length;
        result.back().side = a.side + "~1";
        std::vector<Vec2> points;
        if (arc->path.empty()) points = arcPoints(a.at, b.at, outward, arc->bulge, arc->facets);
        for (std::size_t k = 1; !arc->path.empty() && k + 1 < arc->breaks.size(); ++k)
            points.push_back(pointAt(arc->path, arc->breaks[k]));
        for (std::size_t k = 0; k < points.size(); ++k) {
            const double t = length > 0 ? (points[k] - a.at).dot(chord) / (length * length) : 0;
            const std::string name = a.side + "~" + std::to_string(k + 2);
            result.push_back({name, name, points[k],
                              k < arc->halves.size() ? arc->halves[k] : a.half + t * (b.half - a.half)});
        }
    }
    return result;
}

Corners counterClockwise(Corners corners) {
    if (signedArea(ringOf(corners)) >= 0) return corners;
    std::reverse(corners.begin(), corners.end());
    // The side from i to i + 1 was named by i; turned round it is the edge that ends at i.
    std::vector<std::string> sides;
    for (const Corner& c : corners) sides.push_back(c.side);
    for (std::size_t i = 0; i < corners.size(); ++i) corners[i].side = sides[(i + 1) % sides.size()];
    return corners;
}

OutlineTrouble troubleOf(const Corners& corners) {
    const std::size_t n = corners.size();
    if (n < 3)
        return {"outline-short", "the outline has fewer than three points",
                "Add points until it has three or more.", 0};
    const Ring ring = ringOf(corners);
    const double size = bounds(ring).size().norm();
    for (std::size_t i = 0; i < n; ++i)
        if ((ring[i] - ring[(i + 1) % n]).norm() <= 1e-9 * size)
            return {"outline-point-twice",
                    "points " + corners[i].name + " and " + corners[(i + 1) % n].name + " lie in one place",
                    "Move or delete one of them.", i};
    if (isCollapsed(corners))
        return {"form-flat", "the outline has no area", "Move a point out of the line of the others.", 0};
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 back = ring[i] - ring[(i + 1) % n], on = ring[(i + 2) % n] - ring[(i + 1) % n];
        if (back.dot(on) > 0 && std::abs(cross2(back, on)) <= 1e-9 * back.norm() * on.norm())
            return {"outline-spike", "the outline turns back onto itself at " + corners[(i + 1) % n].name,
                    "Move or delete that point.", (i + 1) % n};
    }
    if (const auto edges = firstCrossing(ring))
        return {"outline-crosses",
                "sides " + corners[edges->first].side + " and " + corners[edges->second].side +
                    " of the outline cross or touch",
                "Put the points in order around the outline, or move an end of one of the two.",
                edges->first};
    return {};
}

bool isCollapsed(const Corners& corners) {
    if (corners.empty()) return true;
    const Vec2 from = corners.front().at;
    Vec2 furthest = Vec2::Zero();
    double size = 0;
    for (const Corner& c : corners) {
        size = std::max(size, c.at.norm());
        if ((c.at - from).norm() > furthest.norm()) furthest = c.at - from;
    }
    const double length = furthest.norm();
    return std::all_of(corners.begin(), corners.end(), [&](const Corner& c) {
        return length <= 1e-12 * size || std::abs(cross2(furthest, c.at - from)) <= 1e-9 * length * length;
    });
}

Corners withoutDoubles(const Corners& corners) {
    Corners kept;
    const double size = bounds(ringOf(corners)).size().norm();
    const auto same = [&](const Corner& a, const Corner& b) { return (a.at - b.at).norm() <= 1e-9 * size; };
    for (const Corner& c : corners)
        if (kept.empty() || !same(kept.back(), c)) kept.push_back(c);
    while (kept.size() > 1 && same(kept.front(), kept.back())) kept.pop_back();
    return kept;
}

} // namespace slab
