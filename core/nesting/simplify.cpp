#include "core/nesting/simplify.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab::nesting {
namespace {

double turn(const Vec2& a, const Vec2& b, const Vec2& c) {
    return cross2(b - a, c - a);
}

bool meet(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    const double p = turn(c, d, a), q = turn(c, d, b), r = turn(a, b, c), s = turn(a, b, d);
    return ((p >= 0 && q <= 0) || (p <= 0 && q >= 0)) && ((r >= 0 && s <= 0) || (r <= 0 && s >= 0));
}

/// One way to save a corner at index `at`: ring[at + 1] goes, ring[at] moves to `corner`.
struct Step {
    double cost = std::numeric_limits<double>::infinity(); ///< area added
    Vec2 corner = Vec2::Zero();
    bool drop = false; ///< ring[at] just goes
};

Step stepAt(const Ring& ring, std::size_t at) {
    const std::size_t n = ring.size();
    const Vec2 &a = ring[(at + n - 1) % n], &b = ring[at], &c = ring[(at + 1) % n], &d = ring[(at + 2) % n];
    Step step;
    const double here = turn(a, b, c);
    if (here <= 0) {
        step.cost = -here / 2;
        step.drop = true;
        return step;
    }
    if (turn(b, c, d) <= 0) return step;
    const Vec2 u = b - a, v = d - c;
    const double across = cross2(u, v);
    if (across <= 1e-12 * u.norm() * v.norm()) return step; // the neighbours do not meet beyond the side
    step.corner = b + u * (cross2(c - b, v) / across);
    step.cost = turn(b, step.corner, c) / 2;
    if (!(step.cost >= 0)) step.cost = std::numeric_limits<double>::infinity();
    return step;
}

/// The new sides must not meet any side that stays, apart from their neighbours.
bool clear(const Ring& ring, std::size_t at, const Step& step) {
    const std::size_t n = ring.size();
    const Vec2 &a = ring[(at + n - 1) % n], &b = ring[at], &c = ring[(at + 1) % n];
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t i = (at + k) % n;
        const bool own = step.drop ? (k == 0 || k == n - 1) : (k <= 1 || k == n - 1);
        if (own) continue;
        const Vec2 &p = ring[i], &q = ring[(i + 1) % n];
        const bool nextDoor = step.drop ? (k == 1 || k == n - 2) : (k == 2 || k == n - 2);
        if (step.drop) {
            if (!nextDoor && meet(a, c, p, q)) return false;
        } else if (!nextDoor && (meet(b, step.corner, p, q) || meet(step.corner, c, p, q))) {
            return false;
        }
        // A corner inside the added triangle would be swallowed.
        const Vec2 &t0 = step.drop ? a : b, &t1 = step.drop ? b : step.corner, &t2 = c;
        const auto inside = [&](const Vec2& x) {
            const double s0 = turn(t0, t1, x), s1 = turn(t1, t2, x), s2 = turn(t2, t0, x);
            return (s0 > 0 && s1 > 0 && s2 > 0) || (s0 < 0 && s1 < 0 && s2 < 0);
        };
        if (inside(p)) return false;
    }
    return true;
}

} // namespace

Ring simplifiedOutward(Ring ring, double& budget) {
    std::vector<bool> refused(ring.size(), false);
    std::vector<Step> steps;
    for (std::size_t i = 0; i < ring.size(); ++i) steps.push_back(stepAt(ring, i));
    while (ring.size() > 4) {
        Step best;
        std::size_t where = 0;
        for (std::size_t i = 0; i < ring.size(); ++i)
            if (!refused[i] && steps[i].cost < best.cost) {
                best = steps[i];
                where = i;
            }
        if (!(best.cost <= budget)) break;
        if (!clear(ring, where, best)) {
            refused[where] = true;
            continue;
        }
        budget -= best.cost;
        const std::size_t gone = best.drop ? where : (where + 1) % ring.size();
        if (!best.drop) ring[where] = best.corner;
        ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(gone));
        steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(gone));
        refused.assign(ring.size(), false);
        const std::size_t n = ring.size(),
                          from = (gone + n - 3) % n; // a step sees one corner back, two ahead
        for (std::size_t k = 0; k < 5; ++k) steps[(from + k) % n] = stepAt(ring, (from + k) % n);
    }
    return ring;
}

Polygon simplifiedOutward(const Polygon& polygon, double share, std::size_t plain) {
    std::size_t corners = polygon.outer.size();
    for (const Ring& hole : polygon.holes) corners += hole.size();
    if (corners <= plain) return polygon;
    // Each ring has a budget of its own: a finely round outline must not use up what its hole needs.
    const auto simple = [share](const Ring& ring, double& added) {
        const double full = std::abs(signedArea(ring)) * share;
        double budget = full;
        Ring out = simplifiedOutward(ring, budget);
        added += full;
        return out;
    };
    double most = 0;
    Polygon out;
    out.outer = simple(polygon.outer, most);
    for (const Ring& hole : polygon.holes) out.holes.push_back(simple(hole, most));
    const bool sound = isSimple(out.outer) && std::all_of(out.holes.begin(), out.holes.end(), isSimple);
    return sound && area(out) <= (area(polygon) + most) * (1 + 1e-9) ? out : polygon;
}

} // namespace slab::nesting
