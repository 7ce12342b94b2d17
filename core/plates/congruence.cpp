#include "core/plates/congruence.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double reach = 0.01;          // mm
constexpr double lean = 0.01 * 0.01745; // 0.01°

struct Turn {
    double c = 1, s = 0;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    [[nodiscard]] Vec2 operator()(const Vec2& p) const {
        const Vec2 d = p - from;
        return to + Vec2(c * d.x() - s * d.y(), s * d.x() + c * d.y());
    }
};

void mirrorRing(Ring& ring) {
    for (Vec2& p : ring) p.x() = -p.x();
    std::reverse(ring.begin(), ring.end());
}

Shape::Loop loopOf(const PanelLoop& loop, bool mirror) {
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

bool loopFits(const Shape::Loop& a, const Shape::Loop& b, const Turn& turn) {
    if (!sameCounts(a, b)) return false;
    for (std::size_t s = 0; s < b.outer.size(); ++s)
        if (loopFitsAt(a, b, s, turn)) return true;
    return false;
}

} // namespace

Shape shapeOf(const Plate& plate, bool mirror) {
    Shape shape;
    shape.thickness = plate.thickness;
    shape.loops.push_back(loopOf(plate.boundary, mirror));
    for (const auto& h : plate.holes) shape.loops.push_back(loopOf(h, mirror));
    return shape;
}

bool congruent(const Shape& a, const Shape& b) {
    if (a.loops.size() != b.loops.size() || std::abs(a.thickness - b.thickness) > 1e-6) return false;
    const auto& la = a.loops.front();
    const auto& lb = b.loops.front();
    if (!sameCounts(la, lb) || la.outer.size() < 3) return false;
    const Vec2 first = la.outer[1] - la.outer[0];
    for (std::size_t s = 0; s < lb.outer.size(); ++s) {
        const Vec2 there = lb.outer[(s + 1) % lb.outer.size()] - lb.outer[s];
        if (std::abs(first.norm() - there.norm()) > reach) continue;
        const double angle = std::atan2(cross2(first, there), first.dot(there));
        const Turn turn{std::cos(angle), std::sin(angle), la.outer[0], lb.outer[s]};
        if (!loopFitsAt(la, lb, s, turn)) continue;
        const bool all = std::all_of(a.loops.begin() + 1, a.loops.end(), [&](const Shape::Loop& hole) {
            return std::any_of(b.loops.begin() + 1, b.loops.end(),
                               [&](const Shape::Loop& other) { return loopFits(hole, other, turn); });
        });
        if (all) return true;
    }
    return false;
}

} // namespace slab::plates
