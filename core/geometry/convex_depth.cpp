#include "core/geometry/convex_core.h"
#include "core/geometry/convex_hull.h"
#include "core/geometry/golden_section.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

void addEdge(std::vector<Vec3>& edges, const Vec3& edge) {
    const double length = edge.norm();
    if (length == 0) return;
    const Vec3 e = edge / length;
    if (std::none_of(edges.begin(), edges.end(),
                     [&](const Vec3& f) { return f.cross(e).squaredNorm() < 1e-26; }))
        edges.push_back(e);
}

class Overlap {
public:
    Overlap(const Core& a, const Core& b) : m_a(a), m_b(b) {}
    [[nodiscard]] double along(const Vec3& n) const { return m_a.reach(n) + m_b.reach(-n); }
    void tryDirection(const Vec3& n) { m_least = std::min(m_least, along(n)); }
    void tryBoth(const Vec3& direction) {
        const double length = direction.norm();
        if (length < 1e-13) return;
        tryDirection(direction / length);
        tryDirection(-direction / length);
    }
    [[nodiscard]] double least() const { return std::isfinite(m_least) ? std::max(0.0, m_least) : 0; }

    /// Least overlap over the directions square to `e`: sampled, then each dip narrowed by golden section.
    void tryRound(const Vec3& e) {
        const Vec3 p = e.unitOrthogonal(), q = e.cross(p);
        const auto at = [&](double angle) { return along(std::cos(angle) * p + std::sin(angle) * q); };
        constexpr int samples = 48;
        constexpr double step = 2 * std::numbers::pi / samples;
        std::array<double, samples> value{};
        for (int i = 0; i < samples; ++i) value[static_cast<std::size_t>(i)] = at(i * step);
        for (int i = 0; i < samples; ++i) {
            const double here = value[static_cast<std::size_t>(i)];
            if (here > value[static_cast<std::size_t>((i + 1) % samples)] ||
                here > value[static_cast<std::size_t>((i + samples - 1) % samples)])
                continue;
            m_least = std::min(m_least, leastBetween(at, (i - 1) * step, (i + 1) * step, 1e-9));
        }
    }

    /// Two rims need a search over all directions: downhill from the best of an even spread, with shrinking
    /// steps.
    void tryAll() {
        constexpr int spread = 200;
        Vec3 best = Vec3::UnitX();
        double value = INFINITY;
        for (int i = 0; i < spread; ++i) { // Fibonacci spread on the sphere
            const double z = 1 - (2 * i + 1.0) / spread, a = i * std::numbers::pi * (3 - std::sqrt(5.0));
            const double r = std::sqrt(1 - z * z);
            const Vec3 n(r * std::cos(a), r * std::sin(a), z);
            if (const double v = along(n); v < value) {
                value = v;
                best = n;
            }
        }
        for (double step = 0.1; step > 1e-9;) {
            const Vec3 p = best.unitOrthogonal(), q = best.cross(p);
            bool better = false;
            for (int k = 0; k < 8; ++k) {
                const double a = k * std::numbers::pi / 4;
                const Vec3 n = (best + step * (std::cos(a) * p + std::sin(a) * q)).normalized();
                if (const double v = along(n); v < value) {
                    value = v;
                    best = n;
                    better = true;
                    break;
                }
            }
            if (!better) step /= 2;
        }
        m_least = std::min(m_least, value);
    }

private:
    const Core &m_a, &m_b;
    double m_least = INFINITY;
};

/// Directions from a cylinder's axis to the corners of the other core: its round side against a corner.
void tryRadial(const Core& cylinder, const Core& other, Overlap& overlap) {
    for (const Vec3& p : other.solid.points) {
        const Vec3 d = p - cylinder.solid.points[0];
        overlap.tryBoth(d - d.dot(cylinder.axis) * cylinder.axis);
    }
}

} // namespace

Directions directionsOf(const Core& core, const Polyhedron& hull) {
    Directions out;
    if (core.isCylinder()) {
        out.normals = {core.axis, -core.axis};
        out.edges = {core.axis};
        return out;
    }
    for (const PolyFace& f : hull.faces) {
        out.normals.push_back(f.plane.normal);
        const std::vector<int>& loop = f.loops[0];
        for (std::size_t i = 0; i < loop.size(); ++i)
            addEdge(out.edges, hull.vertices[static_cast<std::size_t>(loop[(i + 1) % loop.size()])] -
                                   hull.vertices[static_cast<std::size_t>(loop[i])]);
    }
    if (hull.faces.empty()) { // all on one line
        Vec3 longest = Vec3::Zero();
        for (const Vec3& p : core.solid.points)
            if ((p - core.solid.points[0]).norm() > longest.norm()) longest = p - core.solid.points[0];
        addEdge(out.edges, longest);
    }
    return out;
}

const Polyhedron& Prepared::hull() {
    if (!m_hull) m_hull = m_core.isCylinder() ? Polyhedron{} : convexHull3(m_core.solid.points);
    return *m_hull;
}

const Directions& Prepared::directions() {
    if (m_directions) return *m_directions;
    if (!m_home) return m_directions.emplace(directionsOf(m_core, hull()));
    m_directions = m_home->directions();
    for (auto* list : {&m_directions->normals, &m_directions->edges})
        for (Vec3& d : *list) d = m_turn * d;
    return *m_directions;
}

double coreDepth(const Core& a, const Directions& da, const Core& b, const Directions& db) {
    Overlap overlap(a, b);
    for (const Vec3& n : da.normals) overlap.tryDirection(n);
    for (const Vec3& n : db.normals) overlap.tryDirection(-n);
    for (const Vec3& e : da.edges)
        for (const Vec3& f : db.edges) overlap.tryBoth(e.cross(f));
    if (a.isCylinder()) {
        tryRadial(a, b, overlap);
        for (const Vec3& e : db.edges) overlap.tryRound(e);
    }
    if (b.isCylinder()) {
        tryRadial(b, a, overlap);
        for (const Vec3& e : da.edges) overlap.tryRound(e);
    }
    if (a.isCylinder() && b.isCylinder()) overlap.tryAll();
    return overlap.least();
}

} // namespace slab
