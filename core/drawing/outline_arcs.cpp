#include "core/drawing/outline_arcs.h"
#include "core/drawing/panel_facts.h"
#include <cmath>
#include <numbers>

namespace slab {
namespace {

class ArcSearch {
public:
    explicit ArcSearch(const Ring& ring) : m_ring(ring), m_count(static_cast<int>(ring.size())) {}

    /// The longest arc from corner `first` on.
    [[nodiscard]] std::optional<OutlineArc> from(int first) const {
        std::optional<OutlineArc> best;
        for (int last = first + leastEdges; last < first + m_count; ++last) {
            const auto arc = through(first, last);
            if (!arc) break;
            best = arc;
        }
        return best;
    }
    /// End of the longest edge: no arc runs over it.
    [[nodiscard]] int start() const {
        int best = 0;
        double longest = -1;
        for (int i = 0; i < m_count; ++i) {
            const double length = (corner(i + 1) - corner(i)).norm();
            if (length <= longest + 1e-9) continue;
            longest = length;
            best = i + 1;
        }
        return best;
    }

private:
    static constexpr int leastEdges = 5;

    [[nodiscard]] const Vec2& corner(int i) const { return m_ring[static_cast<std::size_t>(i % m_count)]; }
    [[nodiscard]] double turn(int i) const {
        const Vec2 in = corner(i) - corner(i + m_count - 1), out = corner(i + 1) - corner(i);
        return std::atan2(cross2(in, out), in.dot(out));
    }
    [[nodiscard]] std::optional<OutlineArc> through(int first, int last) const {
        constexpr double near = 0.05, sharpest = std::numbers::pi / 4;
        const auto circle = circleOf(corner(first), corner((first + last) / 2), corner(last));
        if (!circle) return {};
        const bool hollow = turn(first + 1) < 0;
        for (int i = first; i <= last; ++i) {
            if (std::abs((corner(i) - circle->first).norm() - circle->second) > near) return {};
            if (i == first || i == last) continue;
            const double by = turn(i);
            if (std::abs(by) > sharpest || (by < 0) != hollow) return {};
        }
        return OutlineArc{first, last, circle->first, circle->second, hollow};
    }

    const Ring& m_ring;
    int m_count;
};

} // namespace

std::optional<std::pair<Vec2, double>> circleOf(const Vec2& a, const Vec2& b, const Vec2& c) {
    const Vec2 u = b - a, v = c - a;
    const double twice = 2 * cross2(u, v);
    if (std::abs(twice) < 1e-9 * u.norm() * v.norm()) return {};
    const Vec2 to(v.y() * u.squaredNorm() - u.y() * v.squaredNorm(),
                  u.x() * v.squaredNorm() - v.x() * u.squaredNorm());
    return std::pair(Vec2(a + to / twice), (to / twice).norm());
}

std::vector<OutlineArc> arcsOf(const Ring& ring) {
    std::vector<OutlineArc> arcs;
    if (ring.size() < 6 || circleThrough(ring)) return arcs;
    const ArcSearch search(ring);
    const int count = static_cast<int>(ring.size()), start = search.start();
    for (int i = start; i < start + count;) {
        auto arc = search.from(i);
        if (!arc || arc->last > start + count) {
            ++i;
            continue;
        }
        i = arc->last;
        arc->last -= arc->first - arc->first % count;
        arc->first %= count;
        arcs.push_back(*arc);
    }
    return arcs;
}

} // namespace slab
