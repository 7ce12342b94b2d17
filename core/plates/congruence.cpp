#include "core/plates/congruence.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double reach = 0.01;          // mm
constexpr double lean = 0.01 * 0.01745; // 0.01°

void mirrorRing(Ring& ring) {
    for (Vec2& p : ring) p.x() = -p.x();
    std::reverse(ring.begin(), ring.end());
}

Shape::Loop shapeLoop(const PanelLoop& loop, bool mirror) {
    Shape::Loop out{loop.outer, loop.inner, {}, {}};
    for (const auto& e : loop.edges) {
        out.bevels.push_back(e.bevel);
        out.folds.push_back(e.role == EdgeRole::fold);
    }
    if (!mirror) return out;
    mirrorRing(out.outer);
    mirrorRing(out.inner);
    // Edge i runs from corner i to i + 1; after reversal that edge starts at corner n - 2 - i.
    std::reverse(out.bevels.begin(), out.bevels.end());
    std::reverse(out.folds.begin(), out.folds.end());
    if (!out.bevels.empty()) {
        std::rotate(out.bevels.begin(), out.bevels.begin() + 1, out.bevels.end());
        std::rotate(out.folds.begin(), out.folds.begin() + 1, out.folds.end());
    }
    return out;
}

/// Do corners of `a`, turned, fall on those of `b` starting `shift` corners on?
bool ringFits(const Ring& a, const Ring& b, std::size_t shift, const Turn& turn) {
    for (std::size_t i = 0; i < a.size(); ++i)
        if ((turn(a[i]) - b[(i + shift) % b.size()]).squaredNorm() > reach * reach) return false;
    return true;
}

bool loopFitsAt(const Shape::Loop& a, const Shape::Loop& b, std::size_t shift, const Turn& turn) {
    if (!ringFits(a.outer, b.outer, shift, turn)) return false;
    for (std::size_t i = 0; i < a.bevels.size(); ++i) {
        const std::size_t k = (i + shift) % b.bevels.size();
        if (std::abs(a.bevels[i] - b.bevels[k]) > lean || a.folds[i] != b.folds[k]) return false;
    }
    if (a.inner.empty()) return true;
    for (std::size_t s = 0; s < b.inner.size(); ++s)
        if (ringFits(a.inner, b.inner, s, turn)) return true;
    return false;
}

bool sameCounts(const Shape::Loop& a, const Shape::Loop& b) {
    return a.outer.size() == b.outer.size() && a.inner.size() == b.inner.size();
}

/// The hole of `a` that falls on `hole`, turned.
std::optional<Match::Loop> holeOn(const Shape& a, const Shape::Loop& hole, const Turn& turn) {
    for (std::size_t i = 1; i < a.loops.size(); ++i) {
        if (!sameCounts(a.loops[i], hole)) continue;
        for (std::size_t s = 0; s < hole.outer.size(); ++s)
            if (loopFitsAt(a.loops[i], hole, s, turn)) return Match::Loop{i, s};
    }
    return {};
}

/// No more than corners within reach can make of the areas: each moves its ring's area by less than reach
/// times half its two edges.
bool sameAreas(const Shape& a, const Shape& b) {
    const double slack = 2 * reach * (std::max(a.round, b.round) + 1);
    return std::equal(a.areas.begin(), a.areas.end(), b.areas.begin(), b.areas.end(),
                      [&](double x, double y) { return std::abs(x - y) <= slack; });
}

/// Folds on folds, either way along. A line that two plates fold about in pieces has as many in both.
bool linesFit(const Shape& a, const Shape& b, const Turn& turn) {
    const auto near = [](const Vec2& p, const Vec2& q) { return (p - q).squaredNorm() <= reach * reach; };
    return std::all_of(a.lines.begin(), a.lines.end(), [&](const Shape::Fold& f) {
        const Vec2 from = turn(f.from), to = turn(f.to);
        return std::any_of(b.lines.begin(), b.lines.end(), [&](const Shape::Fold& g) {
            return f.valley == g.valley && std::abs(f.angle - g.angle) <= lean &&
                   ((near(from, g.from) && near(to, g.to)) || (near(from, g.to) && near(to, g.from)));
        });
    });
}

/// Guide lines on guide lines, either way along.
bool guidesFit(const Shape& a, const Shape& b, const Turn& turn) {
    const auto near = [](const Vec2& p, const Vec2& q) { return (p - q).squaredNorm() <= reach * reach; };
    return std::all_of(a.guides.begin(), a.guides.end(), [&](const GuideLine& f) {
        const Vec2 from = turn(f.from), to = turn(f.to);
        return std::any_of(b.guides.begin(), b.guides.end(), [&](const GuideLine& g) {
            return f.inside == g.inside &&
                   ((near(from, g.from) && near(to, g.to)) || (near(from, g.to) && near(to, g.from)));
        });
    });
}

/// The part of `a` that falls on each of `b`; fewer where one is missing.
std::vector<std::size_t> partsOn(const Shape& a, const Shape& b, const Turn& turn) {
    std::vector<std::size_t> parts;
    for (const Vec2& centre : b.centres)
        for (std::size_t i = 0; i < a.centres.size(); ++i)
            if ((turn(a.centres[i]) - centre).norm() <= 2 * reach) {
                parts.push_back(i);
                break;
            }
    return parts;
}

} // namespace

double lengthRound(const Ring& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) sum += (ring[(i + 1) % ring.size()] - ring[i]).norm();
    return sum;
}

Shape shapeOf(const Panel& panel, bool mirror) {
    Shape shape;
    shape.thickness = panel.thickness;
    shape.loops.push_back(shapeLoop(panel.boundary, mirror));
    for (const auto& h : panel.holes) shape.loops.push_back(shapeLoop(h, mirror));
    for (const auto& loop : shape.loops) {
        shape.areas.push_back(std::abs(signedArea(loop.outer)));
        shape.round = std::max(shape.round, lengthRound(loop.outer));
    }
    std::sort(shape.areas.begin(), shape.areas.end());
    const auto seen = [mirror](const Vec2& p) { return mirror ? Vec2(-p.x(), p.y()) : p; };
    for (const PanelFold& f : panel.folds)
        shape.lines.push_back({seen(f.from), seen(f.to), f.valley, f.angle});
    for (const GuideLine& g : panel.guides) shape.guides.push_back({seen(g.from), seen(g.to), {}, g.inside});
    for (const PanelPart& part : panel.parts) shape.centres.push_back(seen(centroid({part.outer, {}})));
    return shape;
}

std::optional<Match> congruent(const Shape& a, const Shape& b) {
    if (a.loops.size() != b.loops.size() || std::abs(a.thickness - b.thickness) > 1e-6) return {};
    if (a.lines.size() != b.lines.size() || a.centres.size() != b.centres.size()) return {};
    if (a.guides.size() != b.guides.size() || !sameAreas(a, b)) return {};
    const auto& la = a.loops.front();
    const auto& lb = b.loops.front();
    if (!sameCounts(la, lb) || la.outer.size() < 3) return {};
    const Vec2 first = la.outer[1] - la.outer[0];
    for (std::size_t s = 0; s < lb.outer.size(); ++s) {
        const Vec2 there = lb.outer[(s + 1) % lb.outer.size()] - lb.outer[s];
        if (std::abs(first.norm() - there.norm()) > reach) continue;
        const double angle = std::atan2(cross2(first, there), first.dot(there));
        const Turn turn{std::cos(angle), std::sin(angle), la.outer[0], lb.outer[s]};
        if (!loopFitsAt(la, lb, s, turn) || !linesFit(a, b, turn) || !guidesFit(a, b, turn)) continue;
        Match match{{{0, s}}, partsOn(a, b, turn), turn};
        if (match.parts.size() != b.centres.size()) continue;
        for (std::size_t i = 1; i < b.loops.size(); ++i)
            if (const auto hole = holeOn(a, b.loops[i], turn)) match.loops.push_back(*hole);
        if (match.loops.size() == b.loops.size()) return match;
    }
    return {};
}

} // namespace slab::plates
