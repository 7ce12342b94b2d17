#include "core/frames/clean_outline.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace slab::frames {

namespace {

constexpr double spare = 0.01; ///< mm: grown back more, so that rounding to the grid takes nothing away

double turn(const Vec2& a, const Vec2& p, const Vec2& b) {
    const Vec2 in = p - a, out = b - p;
    return std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
}

double triangle(const Vec2& a, const Vec2& b, const Vec2& c) {
    return std::abs((b - a).x() * (c - a).y() - (b - a).y() * (c - a).x()) / 2;
}

/// Where the lines a p and b q meet.
std::optional<Vec2> meeting(const Vec2& a, const Vec2& p, const Vec2& q, const Vec2& b) {
    const Vec2 u = p - a, v = q - b;
    const double cross = u.x() * v.y() - u.y() * v.x();
    if (std::abs(cross) < 1e-12 * u.norm() * v.norm()) return {};
    const Vec2 w = b - a;
    return Vec2(a + u * ((w.x() * v.y() - w.y() * v.x()) / cross));
}

/// A ring with the material on its left, so that a corner that turns left is one of the material.
class RingCleaner {
public:
    explicit RingCleaner(Ring ring) : m_ring(std::move(ring)) {}

    Ring clean() {
        // Each round takes a corner away.
        while (m_ring.size() >= 3) {
            const auto at = shortest();
            if (!at || !mend(*at)) break;
        }
        straighten();
        return m_ring.size() >= 3 ? std::move(m_ring) : Ring{};
    }

private:
    [[nodiscard]] const Vec2& at(std::size_t i) const { return m_ring[i % m_ring.size()]; }
    [[nodiscard]] bool notch(std::size_t i) const { // a narrow one's end
        const std::size_t n = m_ring.size();
        const double first = turn(at(i + n - 1), at(i), at(i + 1)),
                     second = turn(at(i), at(i + 1), at(i + 2));
        return first < 0 && second < 0 && first + second < -std::numbers::pi / 2;
    }
    [[nodiscard]] std::optional<std::size_t> shortest() const {
        std::optional<std::size_t> found;
        double least = leastEdge;
        for (std::size_t i = 0; i < m_ring.size(); ++i) {
            const double length = (at(i + 1) - at(i)).norm();
            if (length >= least || (length > 1e-6 && notch(i))) continue;
            least = length;
            found = i;
        }
        return found;
    }
    /// Corners at which nothing turns are none.
    void straighten() {
        constexpr double rounding = 2e-6; // mm
        for (std::size_t i = 0; i < m_ring.size() && m_ring.size() > 3;) {
            const Vec2 &a = at(i + m_ring.size() - 1), &p = at(i), &b = at(i + 1);
            if (2 * triangle(a, p, b) <= rounding * (b - a).norm() && (p - a).dot(b - p) > 0)
                drop(i);
            else
                ++i;
        }
    }
    void drop(std::size_t i) {
        m_ring.erase(m_ring.begin() + static_cast<std::ptrdiff_t>(i % m_ring.size()));
    }
    /// Of the edge from p to q between a and b.
    bool mend(std::size_t i) {
        const std::size_t n = m_ring.size();
        const Vec2 a = at(i + n - 1), p = at(i), q = at(i + 1), b = at(i + 2);
        if ((q - p).norm() <= 1e-6) {
            drop(i);
            return true;
        }
        const double first = turn(a, p, q), second = turn(p, q, b);
        if (first >= 0 || second >= 0) {
            const bool takesFirst = second < 0 || (first >= 0 && triangle(a, p, q) <= triangle(p, q, b));
            drop(takesFirst ? i : i + 1);
            return true;
        }
        const auto x = meeting(a, p, q, b);
        if (!x) return false;
        m_ring[i] = *x;
        drop(i + 1);
        return true;
    }

    Ring m_ring;
};

} // namespace

std::vector<Polygon> withoutSlivers(const std::vector<Polygon>& regions) {
    constexpr double mitre = 3.9; // times the distance: corners of 30°
    std::vector<Polygon> grown;
    for (const Polygon& region : regions)
        for (const Polygon& core : offset(region, -leastStrip / 2, mitre))
            for (Polygon& back : offset(core, leastStrip / 2 + spare, mitre))
                grown.push_back(std::move(back));
    return grown.empty() ? grown : intersect(regions, unite(grown));
}

std::vector<Polygon> withoutShortEdges(const std::vector<Polygon>& regions) {
    std::vector<Polygon> cleaned;
    for (const Polygon& region : regions) {
        Polygon out{RingCleaner(region.outer).clean(), {}};
        if (out.outer.empty() || signedArea(out.outer) <= 0) continue;
        bool sound = isSimple(out.outer);
        for (const Ring& hole : region.holes) {
            Ring ring = RingCleaner(hole).clean();
            if (ring.empty() || signedArea(ring) >= 0) ring = hole;
            sound = sound && isSimple(ring) && std::all_of(ring.begin(), ring.end(), [&](const Vec2& p) {
                        return contains(out.outer, p);
                    });
            out.holes.push_back(std::move(ring));
        }
        cleaned.push_back(sound ? std::move(out) : region);
    }
    return cleaned;
}

} // namespace slab::frames
