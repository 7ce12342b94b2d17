#include "core/mechanisms/trunnion_slot.h"
#include "core/plates/facets.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double steepest =
    80 * std::numbers::pi / 180;   ///< from the plate's normal; beyond, a slot runs far off
constexpr double pathError = 0.02; ///< of a straight step between two elevations, mm

/// The section of the tube with the plate at one elevation.
class TubeSection {
public:
    TubeSection(const SlotProblem& p, const Frame& flat) : m_p(p), m_flat(flat) {}

    [[nodiscard]] double along(double elevation) const { return m_p.outer.normal.dot(direction(elevation)); }
    /// Corners of both ellipses, the outer one first; both go round the same way from the same place.
    [[nodiscard]] std::vector<Vec2> corners(double elevation, double radius, int facets) const {
        const Vec3 d = direction(elevation), &n = m_p.outer.normal;
        const double rise = n.dot(d);
        const double away = -m_p.outer.distance(m_p.pivot);
        Vec3 major = d - rise * n;
        // Square through the plate the section is a circle: any direction serves, the tube's rise is steady.
        major = major.norm() > 1e-9 ? Vec3(major.normalized())
                                    : Vec3((m_p.up - m_p.up.dot(n) * n).stableNormalized());
        const Vec3 minor = n.cross(major);
        std::vector<Vec2> out;
        for (const double depth : {away, away - m_p.thickness}) {
            const Vec2 middle = m_flat.toPlane(m_p.pivot + d * (depth / rise));
            const Vec2 u = m_flat.axes.transpose().topRows<2>() * major * (radius / rise);
            const Vec2 v = m_flat.axes.transpose().topRows<2>() * minor * radius;
            for (int i = 0; i < facets; ++i) {
                const double a = 2 * std::numbers::pi * i / facets;
                out.push_back(middle + std::cos(a) * u + std::sin(a) * v);
            }
        }
        return out;
    }
    /// Corners of what a many-sided tube of finite length has within the plate, the plate taken thicker by
    /// `more` on both faces; none where it does not reach in.
    [[nodiscard]] std::vector<Vec2> reached(double elevation, double radius, int facets, double more) const {
        const Vec3 d = direction(elevation), side = m_p.ahead.cross(m_p.up), rise = side.cross(d);
        std::vector<Vec3> foot, end;
        for (int i = 0; i < facets; ++i) {
            const double a = 2 * std::numbers::pi * i / facets;
            foot.push_back(m_p.pivot + radius * (std::cos(a) * side + std::sin(a) * rise));
            end.push_back(foot.back() + m_p.front * d);
        }
        std::vector<Vec2> out;
        for (std::size_t i = 0; i < end.size(); ++i) {
            within(foot[i], end[i], more, out);
            within(end[i], end[(i + 1) % end.size()], more, out);
        }
        return out;
    }
    /// Least distance of the tube's flat end beyond the plate's outer face.
    [[nodiscard]] double endBeyond(double elevation) const {
        const double square = along(elevation);
        return m_p.front * square - m_p.radius * std::sqrt(std::max(0.0, 1 - square * square)) +
               m_p.outer.distance(m_p.pivot);
    }

private:
    [[nodiscard]] Vec3 direction(double elevation) const {
        return std::cos(elevation) * m_p.ahead + std::sin(elevation) * m_p.up;
    }
    /// Ends of the stretch of a line that lies in the plate.
    void within(const Vec3& a, const Vec3& b, double more, std::vector<Vec2>& out) const {
        const double from = m_p.outer.distance(a), step = m_p.outer.distance(b) - from;
        const double low = -m_p.thickness - more, high = more;
        double first = 0, last = 1;
        if (std::abs(step) < 1e-12) {
            if (from < low || from > high) return;
        } else {
            const double p = (low - from) / step, q = (high - from) / step;
            first = std::max(first, std::min(p, q));
            last = std::min(last, std::max(p, q));
        }
        if (first > last) return;
        out.push_back(m_flat.toPlane(a + first * (b - a)));
        out.push_back(m_flat.toPlane(a + last * (b - a)));
    }
    const SlotProblem& m_p;
    const Frame& m_flat;
};

/// The stretch of elevations round the steepest crossing in which the tube is square enough to the plate.
bool clipElevations(const TubeSection& tube, double& from, double& to) {
    const double least = std::cos(steepest);
    constexpr int samples = 720;
    double best = -1, at = from;
    for (int i = 0; i <= samples; ++i) {
        const double e = from + (to - from) * i / samples;
        if (tube.along(e) > best) {
            best = tube.along(e);
            at = e;
        }
    }
    if (best < least) return false;
    const auto edge = [&](double inside, double outside) {
        if (tube.along(outside) >= least) return outside;
        for (int i = 0; i < 60; ++i) {
            const double middle = (inside + outside) / 2;
            (tube.along(middle) >= least ? inside : outside) = middle;
        }
        return inside;
    };
    from = edge(at, from);
    to = edge(at, to);
    return true;
}

/// Elevations close enough together that no point's way strays from its chord by more than pathError.
int stepsFor(const TubeSection& tube, double radius, double from, double to) {
    if (!(to > from)) return 0;
    constexpr int probes = 64, spokes = 8;
    const double h = (to - from) / probes;
    double bend = 0; // greatest second derivative seen, mm per radian²
    for (int i = 1; i < probes; ++i) {
        const auto a = tube.corners(from + (i - 1) * h, radius, spokes),
                   b = tube.corners(from + i * h, radius, spokes),
                   c = tube.corners(from + (i + 1) * h, radius, spokes);
        for (std::size_t k = 0; k < b.size(); ++k)
            bend = std::max(bend, (a[k] - 2 * b[k] + c[k]).norm() / (h * h));
    }
    // A chord strays by bend × step² / 8; a quarter more for what lies between the probes.
    const double step = std::sqrt(8 * pathError / std::max(1.25 * bend, 1e-9));
    return std::clamp(static_cast<int>(std::ceil((to - from) / step)), 1, 400);
}

} // namespace

Expected<SlotEdges> slotEdges(double distance, double thickness, double radius, double from, double to) {
    if (!(from <= to) || std::abs(from) >= steepest || std::abs(to) >= steepest)
        return fail("slot-angle", "The tube lies too flat to the plate for a slot.", {},
                    "Keep the tube within 80° of the plate's normal.");
    if (!(distance - thickness > radius))
        return fail("slot-pivot-near", "The pivot is nearer to the plate than half the tube.", {},
                    "Move the pivot back from the plate.");
    const auto top = [&](double a) { return a * std::tan(to) + radius / std::cos(to); };
    const auto bottom = [&](double a) { return a * std::tan(from) - radius / std::cos(from); };
    // With a > radius both edges rise with the angle: their derivatives (a ± radius sin) / cos² are above
    // zero.
    return SlotEdges{top(distance), bottom(distance), top(distance - thickness),
                     bottom(distance - thickness)};
}

namespace {

constexpr double nearlyConvex = 1.02; ///< a hull that adds less than this cuts far simpler

Ring hullOrUnion(const std::vector<Polygon>& pieces) {
    std::vector<Vec2> all;
    for (const Polygon& p : pieces) all.insert(all.end(), p.outer.begin(), p.outer.end());
    Ring hull = convexHull(std::move(all));
    const auto joined = unite(pieces);
    if (joined.size() != 1 || std::abs(signedArea(hull)) <= nearlyConvex * area(joined.front())) return hull;
    return joined.front().outer;
}

/// The tube's end lies beyond the plate all the time: what crosses it is as if the tube were endless.
Ring endlessSlot(const SlotProblem& p, const TubeSection& tube, double from, double to) {
    const double least = std::min(tube.along(from), tube.along(to));
    const Vec3 side = p.ahead.cross(p.up);
    if (std::abs(p.outer.normal.dot(side)) < 1e-9) {
        // The plate holds the pivot's direction: all sections are equally wide and lie on one straight line,
        // so that the two last ones hull the others. Corners outside the true ellipse: no facet cuts into it.
        const int facets = plates::facetsOf(p.radius / least);
        const double radius = p.radius / std::cos(std::numbers::pi / facets);
        std::vector<Vec2> all = tube.corners(from, radius, facets), last = tube.corners(to, radius, facets);
        all.insert(all.end(), last.begin(), last.end());
        return convexHull(std::move(all));
    }
    constexpr int facets = 48;
    const double radius = (p.radius + pathError) / std::cos(std::numbers::pi / facets);
    const int steps = std::max(1, stepsFor(tube, radius, from, to));
    std::vector<Polygon> pieces;
    std::vector<Vec2> last = tube.corners(from, radius, facets);
    for (int i = 1; i <= steps; ++i) {
        auto next = tube.corners(from + (to - from) * i / steps, radius, facets);
        last.insert(last.end(), next.begin(), next.end());
        pieces.push_back({convexHull(std::move(last)), {}});
        last = std::move(next);
    }
    return hullOrUnion(pieces);
}

/// The tube's end moves in and out of the plate. Between two elevations no point of the tube goes farther
/// than half a step of its end, so that the plate taken thicker by as much sees all of them.
/// @return nothing where it does not reach in
Ring shortSlot(const SlotProblem& p, const TubeSection& tube, double from, double to) {
    constexpr int facets = 48, most = 1000;
    constexpr double wanted = 0.2; // mm that the end goes in a step
    constexpr std::size_t joinedSteps = 8;
    const double reach = std::hypot(p.front, p.radius);
    const int steps = std::clamp(static_cast<int>(std::ceil(reach * (to - from) / wanted)), 1, most);
    const double step = (to - from) / steps;
    const double chord = reach * step * step / 8; // of the end's arc
    const double radius = (p.radius + chord) / std::cos(std::numbers::pi / facets);
    std::vector<Polygon> pieces;
    std::vector<Vec2> points, last;
    const auto close = [&] {
        if (points.size() > 2)
            if (Ring hull = convexHull(std::move(points)); hull.size() > 2)
                pieces.push_back({std::move(hull), {}});
        points = last;
    };
    std::size_t held = 0;
    for (int i = 0; i <= steps; ++i) {
        last = tube.reached(from + step * i, radius, facets, reach * step / 2 + chord);
        points.insert(points.end(), last.begin(), last.end());
        if (last.empty() || ++held % joinedSteps == 0) close();
    }
    close();
    return pieces.empty() ? Ring{} : hullOrUnion(pieces);
}

bool endIsBeyond(const SlotProblem& p, const TubeSection& tube, double from, double to) {
    if (p.front == std::numeric_limits<double>::infinity()) return true;
    constexpr int samples = 720;
    for (int i = 0; i <= samples; ++i)
        if (tube.endBeyond(from + (to - from) * i / samples) < 0) return false;
    return true;
}

} // namespace

bool endIsBeyond(const SlotProblem& p) {
    const Frame flat;
    const TubeSection tube(p, flat);
    double from = p.from, to = p.to;
    return clipElevations(tube, from, to) && endIsBeyond(p, tube, from, to);
}

Expected<Ring> slotOutline(const SlotProblem& p, const Frame& flat) {
    const double away = -p.outer.distance(p.pivot);
    if (!(away - p.thickness > p.radius))
        return fail("slot-pivot-near", "The pivot is nearer to the plate than half the tube.", {},
                    "Move the pivot back from the plate.");
    const TubeSection tube(p, flat);
    double from = p.from, to = p.to;
    Ring slot;
    if (clipElevations(tube, from, to))
        slot = endIsBeyond(p, tube, from, to) ? endlessSlot(p, tube, from, to) : shortSlot(p, tube, from, to);
    if (slot.size() < 3)
        return fail("slot-none", "The tube never passes through the plate.", {},
                    "Turn or move the tube, or change the plate.");
    return slot;
}

TubeBalance balanceOf(const TubeLoad& load) {
    constexpr double g = 9.80665, pvc = 1400; // m/s², kg/m³
    TubeBalance b;
    const double inside = std::max(0.0, load.diameter - 2 * load.wall);
    const double section = std::numbers::pi / 4 * (load.diameter * load.diameter - inside * inside);
    b.mass = load.mass.value_or(load.wall > 0 ? section * (load.front + load.rear) * 1e-9 * pvc : 0);
    const double sum =
        b.mass * (load.front - load.rear) / 2 + load.frontMass * load.front - load.rearMass * load.rear;
    b.moment = g * sum * 1e-3;
    const double arm = sum > 0 ? load.rear : load.front;
    if (sum != 0 && arm > 0) b.counterweight = sum / arm;
    const double level =
        load.lowest <= 0 && load.highest >= 0 ? 1 : std::max(std::cos(load.lowest), std::cos(load.highest));
    b.holding = std::abs(b.moment) * std::max(0.0, level);
    return b;
}

} // namespace slab
