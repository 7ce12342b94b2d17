// Judges a layout without anything from the nester: borders are compared with borders, no no-fit polygons.
#include "core/nesting/check.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace slab {
namespace {

struct Edge {
    Vec2 a, b;
    Box2 box;
};
struct Body {
    Polygon outline;
    std::vector<Edge> edges;
    Box2 box;
    Vec2 inside = Vec2::Zero(); ///< a point well inside
    double spacing = 0;
    std::string name;
};

double distanceTo(const Vec2& p, const Edge& e) {
    const Vec2 d = e.b - e.a;
    const double length2 = d.squaredNorm();
    const double t = length2 > 0 ? std::clamp((p - e.a).dot(d) / length2, 0.0, 1.0) : 0.0;
    return (p - e.a - t * d).norm();
}

bool crossing(const Edge& e, const Edge& f) {
    const double a = cross2(f.b - f.a, e.a - f.a), b = cross2(f.b - f.a, e.b - f.a);
    const double c = cross2(e.b - e.a, f.a - e.a), d = cross2(e.b - e.a, f.b - e.a);
    return ((a > 0 && b < 0) || (a < 0 && b > 0)) && ((c > 0 && d < 0) || (c < 0 && d > 0));
}

double distanceBetween(const Edge& e, const Edge& f) {
    if (crossing(e, f)) return 0;
    return std::min(std::min(distanceTo(e.a, f), distanceTo(e.b, f)),
                    std::min(distanceTo(f.a, e), distanceTo(f.b, e)));
}

/// Even-odd rule over all rings; a point on a border may go either way.
bool insideOf(const Body& body, const Vec2& p) {
    bool in = false;
    for (const Edge& e : body.edges)
        if ((e.a.y() > p.y()) != (e.b.y() > p.y()) &&
            p.x() < e.a.x() + (p.y() - e.a.y()) / (e.b.y() - e.a.y()) * (e.b.x() - e.a.x()))
            in = !in;
    return in;
}

/// Middle of the longest chord found on a few heights.
Vec2 insidePoint(const Body& body) {
    Vec2 best = body.outline.outer.front();
    double longest = -1;
    for (int k = 1; k < 16; ++k) {
        const double y = body.box.min.y() + (body.box.max.y() - body.box.min.y()) * (k / 16.0 + 1.1e-4);
        std::vector<double> xs;
        for (const Edge& e : body.edges)
            if ((e.a.y() > y) != (e.b.y() > y))
                xs.push_back(e.a.x() + (y - e.a.y()) / (e.b.y() - e.a.y()) * (e.b.x() - e.a.x()));
        std::sort(xs.begin(), xs.end());
        for (std::size_t i = 0; i + 1 < xs.size(); i += 2)
            if (xs[i + 1] - xs[i] > longest) {
                longest = xs[i + 1] - xs[i];
                best = Vec2((xs[i] + xs[i + 1]) / 2, y);
            }
    }
    return best;
}

/// Stretch of e within `reach` of f: the segment against a stadium, which is convex, so one interval.
bool nearStretch(const Edge& e, const Edge& f, double reach, double& low, double& high) {
    const Vec2 d = e.b - e.a;
    low = 2;
    high = -1;
    const auto take = [&](double t0, double t1) {
        low = std::min(low, std::max(0.0, t0));
        high = std::max(high, std::min(1.0, t1));
    };
    const double own = d.norm();
    for (const Vec2& c : {f.a, f.b}) { // the two round ends
        if (own == 0) break;
        const double aside = cross2(d, c - e.a) / own, root = reach * reach - aside * aside;
        if (root < 0) continue;
        const double middle = (c - e.a).dot(d) / (own * own), half = std::sqrt(root) / own;
        if (middle + half >= 0 && middle - half <= 1) take(middle - half, middle + half);
    }
    const double length = (f.b - f.a).norm();
    if (length > 0) { // the straight middle
        const Vec2 u = (f.b - f.a) / length, n(-u.y(), u.x());
        double t0 = 0, t1 = 1;
        const auto cut = [&](double from, double step, double least, double most) {
            if (std::abs(step) < 1e-300) return from >= least && from <= most;
            double enter = (least - from) / step, leave = (most - from) / step;
            if (enter > leave) std::swap(enter, leave);
            t0 = std::max(t0, enter);
            t1 = std::min(t1, leave);
            return t0 <= t1;
        };
        if (cut((e.a - f.a).dot(u), d.dot(u), 0, length) && cut((e.a - f.a).dot(n), d.dot(n), -reach, reach))
            take(t0, t1);
    }
    return low <= high;
}

bool boxesApart(const Box2& a, const Box2& b, double gap) {
    return a.min.x() > b.max.x() + gap || b.min.x() > a.max.x() + gap || a.min.y() > b.max.y() + gap ||
           b.min.y() > a.max.y() + gap;
}

/// True if some border point of a lies in b, further than `tolerance` from b's border.
///
/// The stretches of an edge that are not near any edge of b lie wholly inside or wholly outside b.
bool borderInside(const Body& a, const Body& b, double tolerance) {
    std::vector<std::pair<double, double>> near;
    for (const Edge& e : a.edges) {
        if (boxesApart(e.box, b.box, 0)) continue;
        near.clear();
        for (const Edge& f : b.edges) {
            double low = 0, high = 0;
            if (!boxesApart(e.box, f.box, tolerance) && nearStretch(e, f, tolerance, low, high))
                near.emplace_back(low, high);
        }
        std::sort(near.begin(), near.end());
        near.emplace_back(1.0, 1.0);
        double free = 0;
        for (const auto& [low, high] : near) {
            if (low > free && insideOf(b, e.a + (free + low) / 2 * (e.b - e.a))) return true;
            free = std::max(free, high);
        }
    }
    return false;
}

double borderDistance(const Body& a, const Body& b, double wanted) {
    double least = std::numeric_limits<double>::infinity();
    for (const Edge& e : a.edges) {
        if (boxesApart(e.box, b.box, wanted)) continue;
        for (const Edge& f : b.edges)
            if (!boxesApart(e.box, f.box, wanted)) least = std::min(least, distanceBetween(e, f));
    }
    return least;
}

class Checker {
public:
    Checker(const NestProblem& problem, const NestResult& result, double tolerance)
        : m_problem(problem), m_result(result), m_tolerance(tolerance) {}

    /// @param layoutsKnown  each layout was looked at by itself
    std::vector<std::string> run(bool layoutsKnown = false) {
        std::map<std::pair<int, bool>, int> taken;
        for (std::size_t i = 0; i < m_result.layouts.size(); ++i) {
            const NestLayout& layout = m_result.layouts[i];
            m_where = "sheet " + std::to_string(i + 1);
            if (m_problem.strip <= 0 &&
                (layout.sheet < 0 || layout.sheet >= static_cast<int>(m_problem.sheets.size()))) {
                fault("is of no known kind");
                continue;
            }
            ++taken[{layout.sheet, layout.onHand}];
            if (!layoutsKnown)
                checkLayout(layout);
            else
                for (const NestPlace& place : layout.places) (void)known(place);
        }
        m_where = "layout";
        if (m_problem.strip > 0 && m_result.layouts.size() > 1) fault("has more than one strip");
        if (m_problem.strip <= 0) checkSupply(taken);
        checkCount();
        return std::move(m_faults);
    }

    bool one(const NestLayout& layout) {
        if (m_problem.strip <= 0 &&
            (layout.sheet < 0 || layout.sheet >= static_cast<int>(m_problem.sheets.size())))
            return false;
        checkLayout(layout);
        return m_faults.empty();
    }

private:
    void fault(const std::string& what) { m_faults.push_back(m_where + ": " + what); }

    void checkSupply(const std::map<std::pair<int, bool>, int>& taken) {
        double cost = 0;
        for (const auto& [kind, count] : taken) {
            const NestSheet& s = m_problem.sheets[static_cast<std::size_t>(kind.first)];
            if (kind.second && count > s.onHand) fault("uses more sheets than are on hand");
            if (!kind.second && s.limit >= 0 && count > s.limit) fault("buys more sheets than the limit");
            if (!kind.second) cost += count * s.price;
        }
        if (std::abs(cost - m_result.cost) > 1e-9 * std::max(1.0, cost)) fault("states a wrong cost");
    }

    void checkCount() {
        std::set<std::pair<int, int>> unplaced;
        for (const auto& u : m_result.unplaced)
            if (!unplaced.insert(u).second || m_seen.count(u))
                fault("lists a copy as unplaced that it has already");
        for (std::size_t p = 0; p < m_problem.parts.size(); ++p)
            for (int c = 0; c < m_problem.parts[p].copies; ++c) {
                const std::pair<int, int> key(static_cast<int>(p), c);
                if (!m_seen.count(key) && !unplaced.count(key))
                    fault("loses a copy of " + m_problem.parts[p].id);
            }
    }

    bool known(const NestPlace& place) {
        if (place.part < 0 || place.part >= static_cast<int>(m_problem.parts.size())) {
            fault("holds an unknown part");
            return false;
        }
        const NestPart& part = m_problem.parts[static_cast<std::size_t>(place.part)];
        if (place.copy < 0 || place.copy >= part.copies) fault("holds an unknown copy of " + part.id);
        if (!m_seen.insert({place.part, place.copy}).second) fault("places a copy of " + part.id + " twice");
        if (place.flipped && !part.flip) fault("flips " + part.id);
        const bool turnAllowed =
            part.rotations.empty() ||
            std::any_of(part.rotations.begin(), part.rotations.end(), [&](double r) {
                return std::abs(std::remainder(r - place.rotation, 2 * std::numbers::pi)) <= 1e-9;
            });
        if (!turnAllowed) fault("turns " + part.id + " to an angle that is not allowed");
        if (!std::isfinite(place.x) || !std::isfinite(place.y) || !std::isfinite(place.rotation)) {
            fault("has no place for " + part.id);
            return false;
        }
        return true;
    }

    Body bodyOf(const NestPlace& place) {
        const NestPart& part = m_problem.parts[static_cast<std::size_t>(place.part)];
        Body body;
        body.outline = placed(part, place);
        body.spacing = part.spacing;
        body.name = part.id;
        const auto add = [&](const Ring& ring) {
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
                body.edges.push_back({a, b, {a.cwiseMin(b), a.cwiseMax(b)}});
            }
        };
        add(body.outline.outer);
        for (const Ring& hole : body.outline.holes) add(hole);
        body.box = {body.outline.outer.front(), body.outline.outer.front()};
        for (const Vec2& p : body.outline.outer) {
            body.box.min = body.box.min.cwiseMin(p);
            body.box.max = body.box.max.cwiseMax(p);
        }
        body.inside = insidePoint(body);
        return body;
    }

    void checkBorder(const NestLayout& layout, const Body& body) {
        const bool strip = m_problem.strip > 0;
        const NestSheet* s = strip ? nullptr : &m_problem.sheets[static_cast<std::size_t>(layout.sheet)];
        const double trim = strip ? 0 : s->trim;
        const Vec2 low(trim - m_tolerance, trim - m_tolerance);
        const Vec2 high((strip ? m_result.stripLength : s->length) - trim + m_tolerance,
                        (strip ? m_problem.strip : s->width) - trim + m_tolerance);
        const bool in =
            (body.box.min.array() >= low.array()).all() && (body.box.max.array() <= high.array()).all();
        if (!in) fault(body.name + " leaves the sheet");
    }

    void checkPair(const Body& a, const Body& b) {
        const double wanted = (a.spacing + b.spacing) / 2;
        if (boxesApart(a.box, b.box, wanted)) return;
        if (wanted > m_tolerance && borderDistance(a, b, wanted) < wanted - m_tolerance)
            return fault(a.name + " and " + b.name + " are closer than their spacing");
        if (borderInside(a, b, m_tolerance) || borderInside(b, a, m_tolerance) || insideOf(b, a.inside) ||
            insideOf(a, b.inside))
            fault(a.name + " and " + b.name + " overlap");
    }

    void checkLayout(const NestLayout& layout) {
        std::vector<Body> bodies;
        double own = 0;
        for (const NestPlace& place : layout.places) {
            if (!known(place)) continue;
            const NestPart& part = m_problem.parts[static_cast<std::size_t>(place.part)];
            if (m_problem.strip <= 0 &&
                m_problem.sheets[static_cast<std::size_t>(layout.sheet)].stock != part.stock)
                fault(part.id + " lies on another stock");
            bodies.push_back(bodyOf(place));
            own += area(part.shape);
            checkBorder(layout, bodies.back());
        }
        for (std::size_t i = 0; i < bodies.size(); ++i)
            for (std::size_t j = i + 1; j < bodies.size(); ++j) checkPair(bodies[i], bodies[j]);
        double size = m_result.stripLength * m_problem.strip;
        if (m_problem.strip <= 0) {
            const NestSheet& s = m_problem.sheets[static_cast<std::size_t>(layout.sheet)];
            size = s.length * s.width;
        }
        if (std::abs(own - layout.used * size) > 1e-6 * std::max(1.0, size))
            fault("states a wrong used area");
    }

    const NestProblem& m_problem;
    const NestResult& m_result;
    double m_tolerance;
    std::set<std::pair<int, int>> m_seen;
    std::vector<std::string> m_faults;
    std::string m_where;
};

} // namespace

std::vector<std::string> checkNest(const NestProblem& problem, const NestResult& result, double tolerance) {
    return Checker(problem, result, tolerance).run();
}

bool nesting::soundTogether(const NestProblem& problem, const NestResult& result) {
    return Checker(problem, result, 0).run(true).empty();
}

bool nesting::soundLayout(const NestProblem& problem, const NestLayout& layout, double stripLength,
                          double tolerance) {
    NestResult result;
    result.stripLength = stripLength;
    return Checker(problem, result, tolerance).one(layout);
}

} // namespace slab
