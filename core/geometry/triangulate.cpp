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

bool isEar(const Work& w, const Chain& chain, std::size_t i) {
    const std::size_t n = chain.size();
    const int a = chain[(i + n - 1) % n], b = chain[i], c = chain[(i + 1) % n];
    if (w.turn(a, b, c) <= 0) return false;
    const Vec2 &pa = w.at(a), &pb = w.at(b), &pc = w.at(c);
    for (std::size_t k = 0; k < n; ++k) {
        const int p = chain[k];
        const Vec2& q = w.at(p);
        if (q == pa || q == pb || q == pc) continue;
        if (w.turn(a, b, p) >= 0 && w.turn(b, c, p) >= 0 && w.turn(c, a, p) >= 0) return false;
    }
    return true;
}

/// Least angle's sine squared at the ear's tip and ends: the larger, the better shaped.
double shapeOf(const Work& w, int a, int b, int c) {
    const double ab = (w.at(b) - w.at(a)).squaredNorm(), bc = (w.at(c) - w.at(b)).squaredNorm(),
                 ca = (w.at(a) - w.at(c)).squaredNorm();
    const double longest = std::max({ab, bc, ca});
    return longest == 0 ? 0 : w.turn(a, b, c) / longest;
}

void clipEars(const Work& w, Chain chain, std::vector<Triangle>& triangles) {
    while (chain.size() > 3) {
        const std::size_t n = chain.size();
        std::size_t best = n;
        double bestShape = 0;
        for (std::size_t i = 0; i < n; ++i) {
            const double shape = shapeOf(w, chain[(i + n - 1) % n], chain[i], chain[(i + 1) % n]);
            if (shape <= bestShape || !isEar(w, chain, i)) continue;
            best = i;
            bestShape = shape;
        }
        if (best ==
            n) { // only flat corners are left, or rounding hides the last ears: the flattest goes first
            best = 0;
            for (std::size_t i = 0; i < n; ++i) {
                const auto flat = [&](std::size_t k) {
                    return std::abs(w.turn(chain[(k + n - 1) % n], chain[k], chain[(k + 1) % n]));
                };
                if (flat(i) < flat(best)) best = i;
            }
        }
        triangles.push_back({chain[(best + n - 1) % n], chain[best], chain[(best + 1) % n]});
        chain.erase(chain.begin() + static_cast<std::ptrdiff_t>(best));
    }
    if (chain.size() == 3) triangles.push_back({chain[0], chain[1], chain[2]});
}

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
    if (chain.size() >= 3) clipEars(w, std::move(chain), triangles);
    return triangles;
}

} // namespace slab
