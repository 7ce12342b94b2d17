#include "core/geometry/triangulate.h"
#include <algorithm>
#include <numeric>
#include <tuple>

namespace slab {

namespace {

using Triangle = std::array<int, 3>;
using Chain = std::vector<int>; ///< point indices in order; bridges make a point appear twice

struct Work {
    std::vector<Vec2> points;

    [[nodiscard]] const Vec2& at(int i) const { return points[static_cast<std::size_t>(i)]; }
    [[nodiscard]] double turn(int a, int b, int c) const { return cross2(at(b) - at(a), at(c) - at(a)); }
};

/// Do the open segments ab and cd cross, or does one end of cd lie inside ab? Shared end points do not count.
bool blocks(const Work& w, int a, int b, int c, int d) {
    const Vec2 &pa = w.at(a), &pb = w.at(b), &pc = w.at(c), &pd = w.at(d);
    const auto same = [](const Vec2& p, const Vec2& q) { return p == q; };
    const bool cEnd = same(pc, pa) || same(pc, pb), dEnd = same(pd, pa) || same(pd, pb);
    if (cEnd && dEnd) return false;
    const double tc = w.turn(a, b, c), td = w.turn(a, b, d);
    const auto within = [&](const Vec2& p) { return (p - pa).dot(p - pb) < 0; };
    if (!cEnd && tc == 0 && within(pc)) return true;
    if (!dEnd && td == 0 && within(pd)) return true;
    if (cEnd || dEnd) return false;
    const double ta = w.turn(c, d, a), tb = w.turn(c, d, b);
    return ((tc > 0) != (td > 0)) && ((ta > 0) != (tb > 0)) && tc != 0 && td != 0;
}

/// Does `p` lie in the cone of the chain's inside at position k?
bool inCone(const Work& w, const Chain& chain, std::size_t k, int p) {
    const std::size_t n = chain.size();
    const int prev = chain[(k + n - 1) % n], cur = chain[k], next = chain[(k + 1) % n];
    const bool convex = w.turn(prev, cur, next) >= 0;
    const bool leftOfIn = w.turn(prev, cur, p) > 0, leftOfOut = w.turn(cur, next, p) > 0;
    return convex ? leftOfIn && leftOfOut : leftOfIn || leftOfOut;
}

bool crossesChain(const Work& w, int a, int b, const Chain& chain) {
    for (std::size_t i = 0; i < chain.size(); ++i)
        if (blocks(w, a, b, chain[i], chain[(i + 1) % chain.size()])) return true;
    return false;
}

/// Joins a hole to the chain by the shortest bridge that crosses nothing.
void bridge(const Work& w, Chain& chain, const std::vector<Chain>& open, std::size_t hole) {
    const Chain& ring = open[hole];
    struct Candidate {
        double length;
        std::size_t onChain, onHole;
    };
    std::vector<Candidate> candidates;
    candidates.reserve(ring.size() * chain.size());
    for (std::size_t h = 0; h < ring.size(); ++h)
        for (std::size_t k = 0; k < chain.size(); ++k)
            candidates.push_back({(w.at(chain[k]) - w.at(ring[h])).squaredNorm(), k, h});
    // Shortest first, by a heap: one of the first will do.
    const auto longer = [](const Candidate& a, const Candidate& b) {
        return std::tie(a.length, a.onHole, a.onChain) > std::tie(b.length, b.onHole, b.onChain);
    };
    std::make_heap(candidates.begin(), candidates.end(), longer);
    Candidate chosen = candidates.front();
    for (auto end = candidates.end(); end != candidates.begin(); --end) {
        const auto [length, k, h] = candidates.front();
        std::pop_heap(candidates.begin(), end, longer);
        if (!inCone(w, chain, k, ring[h]) || !inCone(w, ring, h, chain[k])) continue;
        if (crossesChain(w, chain[k], ring[h], chain)) continue;
        bool clear = true;
        for (std::size_t other = hole; clear && other < open.size(); ++other)
            clear = !crossesChain(w, chain[k], ring[h], open[other]);
        if (!clear) continue;
        chosen = {length, k, h};
        break;
    }
    const auto [length, k, h] = chosen;
    Chain joined(chain.begin(), chain.begin() + static_cast<std::ptrdiff_t>(k) + 1);
    for (std::size_t i = 0; i <= ring.size(); ++i) joined.push_back(ring[(h + i) % ring.size()]);
    joined.insert(joined.end(), chain.begin() + static_cast<std::ptrdiff_t>(k), chain.end());
    chain = std::move(joined);
}

/// Least angle's sine squared at the ear's tip and ends: the larger, the better shaped.
double shapeOf(const Work& w, int a, int b, int c) {
    const double ab = (w.at(b) - w.at(a)).squaredNorm(), bc = (w.at(c) - w.at(b)).squaredNorm(),
                 ca = (w.at(a) - w.at(c)).squaredNorm();
    const double longest = std::max({ab, bc, ca});
    return longest == 0 ? 0 : w.turn(a, b, c) / longest;
}

/// A chain that loses its best ears one by one. What is known of a corner is kept until a neighbour goes.
class EarClipper {
public:
    EarClipper(const Work& work, const Chain& chain) : m_work(work), m_gone(chain.size(), false) {
        for (const int p : chain) m_chain.push_back({p, m_chain.size()});
        for (std::size_t i = 0; i < m_chain.size(); ++i) forget(i);
    }

    void run(std::vector<Triangle>& triangles) {
        while (m_chain.size() > 3) {
            std::size_t best = bestEar();
            if (best == m_chain.size()) best = flattest();
            triangles.push_back({before(best).point, m_chain[best].point, after(best).point});
            clip(best);
        }
        if (m_chain.size() == 3) triangles.push_back({m_chain[0].point, m_chain[1].point, m_chain[2].point});
    }

private:
    enum class Ear { unknown, yes, no };
    struct Corner {
        int point = 0;
        std::size_t number = 0; ///< in the whole chain
        double shape = 0;
        Ear ear = Ear::unknown;
        std::size_t inTheWay = 0; ///< number of a corner in the triangle, of what is no ear
    };

    const Corner& before(std::size_t i) const { return m_chain[(i + m_chain.size() - 1) % m_chain.size()]; }
    const Corner& after(std::size_t i) const { return m_chain[(i + 1) % m_chain.size()]; }

    void forget(std::size_t i) {
        m_chain[i].shape = shapeOf(m_work, before(i).point, m_chain[i].point, after(i).point);
        m_chain[i].ear = Ear::unknown;
    }

    bool isEar(std::size_t i) {
        Corner& corner = m_chain[i];
        if (corner.ear == Ear::no && m_gone[corner.inTheWay]) corner.ear = Ear::unknown;
        if (corner.ear == Ear::unknown) corner.ear = lookForEar(i) ? Ear::yes : Ear::no;
        return corner.ear == Ear::yes;
    }
    bool lookForEar(std::size_t i) {
        const int a = before(i).point, b = m_chain[i].point, c = after(i).point;
        const Vec2 &pa = m_work.at(a), &pb = m_work.at(b), &pc = m_work.at(c);
        for (const Corner& other : m_chain) {
            const int p = other.point;
            const Vec2& q = m_work.at(p);
            if (q == pa || q == pb || q == pc) continue;
            if (m_work.turn(a, b, p) >= 0 && m_work.turn(b, c, p) >= 0 && m_work.turn(c, a, p) >= 0) {
                m_chain[i].inTheWay = other.number;
                return false;
            }
        }
        return true;
    }

    /// The best shaped; the chain's length if there is none.
    std::size_t bestEar() {
        std::size_t best = m_chain.size();
        double shape = 0;
        for (std::size_t i = 0; i < m_chain.size(); ++i) {
            if (m_chain[i].shape <= shape || !isEar(i)) continue;
            best = i;
            shape = m_chain[i].shape;
        }
        return best;
    }
    /// Only flat corners are left, or rounding hides the last ears.
    std::size_t flattest() const {
        std::size_t best = 0;
        const auto flat = [&](std::size_t k) {
            return std::abs(m_work.turn(before(k).point, m_chain[k].point, after(k).point));
        };
        for (std::size_t i = 0; i < m_chain.size(); ++i)
            if (flat(i) < flat(best)) best = i;
        return best;
    }
    void clip(std::size_t i) {
        m_gone[m_chain[i].number] = true;
        m_chain.erase(m_chain.begin() + static_cast<std::ptrdiff_t>(i));
        const std::size_t n = m_chain.size();
        forget((i + n - 1) % n);
        forget(i % n);
    }

    const Work& m_work;
    std::vector<Corner> m_chain;
    std::vector<bool> m_gone; ///< by number
};

} // namespace

std::vector<std::array<int, 3>> triangulate(const Polygon& polygon) {
    Work w;
    const auto chainOf = [&](const Ring& ring, bool counterClockwise) {
        Chain chain(ring.size());
        std::iota(chain.begin(), chain.end(), static_cast<int>(w.points.size()));
        w.points.insert(w.points.end(), ring.begin(), ring.end());
        if ((signedArea(ring) > 0) != counterClockwise) std::reverse(chain.begin(), chain.end());
        return chain;
    };
    Chain chain = chainOf(polygon.outer, true);
    std::vector<Chain> holes;
    for (const Ring& hole : polygon.holes) holes.push_back(chainOf(hole, false));
    const auto right = [&](const Chain& c) {
        double x = w.at(c.front()).x();
        for (int i : c) x = std::max(x, w.at(i).x());
        return x;
    };
    std::erase_if(holes, [](const Chain& c) { return c.size() < 3; });
    std::stable_sort(holes.begin(), holes.end(),
                     [&](const Chain& a, const Chain& b) { return right(a) > right(b); });
    for (std::size_t h = 0; h < holes.size(); ++h) bridge(w, chain, holes, h);
    std::vector<Triangle> triangles;
    if (chain.size() >= 3) EarClipper(w, chain).run(triangles);
    return triangles;
}

} // namespace slab
