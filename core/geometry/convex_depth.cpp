#include "core/geometry/convex_core.h"
#include "core/geometry/convex_hull.h"
#include "core/geometry/golden_section.h"
#include <Eigen/Eigenvalues>
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

    /// Two rims need a search over all directions: an even spread, and from the best of each of the four
    /// parts that the planes square to the axes leave, downhill.
    void tryAll() {
        constexpr int spread = 200;
        std::array<Vec3, 4> best{};
        std::array<double, 4> value{};
        value.fill(INFINITY);
        for (int i = 0; i < spread; ++i) { // Fibonacci spread on the sphere
            const double z = 1 - (2 * i + 1.0) / spread, a = i * std::numbers::pi * (3 - std::sqrt(5.0));
            const double r = std::sqrt(1 - z * z);
            const Vec3 n(r * std::cos(a), r * std::sin(a), z);
            const std::size_t part = (n.dot(m_a.axis) > 0 ? 1U : 0U) + (n.dot(m_b.axis) > 0 ? 2U : 0U);
            if (const double v = along(n); v < value[part]) {
                value[part] = v;
                best[part] = n;
            }
            // A part may have more than one valley.
            if (i % 5 == 0) m_least = std::min(m_least, narrowed(n, along(n)));
        }
        for (std::size_t part = 0; part < value.size(); ++part)
            if (std::isfinite(value[part])) goDown(best[part], value[part]);
    }

private:
    /// Downhill from a direction, in steps that shrink where nothing is better and grow where much is. The
    /// overlap of a long cylinder has a sharp valley square to its axis: one of the ways leads along the
    /// nearer valley, so that the steps do not go to and fro across it.
    void goDown(Vec3 best, double value) {
        constexpr int most = 400; // directions; each bounds the depth from above
        constexpr double first = 0.1, last = 1e-5;
        int looks = 0, row = 0;
        for (double step = first; step > last && looks < most;) {
            const bool nearer = std::abs(best.dot(m_a.axis)) < std::abs(best.dot(m_b.axis));
            const Vec3 valley = (nearer ? m_a.axis : m_b.axis).cross(best);
            const double length = valley.norm();
            const Vec3 p = length > 1e-9 ? Vec3(valley / length) : best.unitOrthogonal(), q = best.cross(p);
            bool better = false;
            for (int k = 0; k < 8 && !better; ++k, ++looks) {
                const double a = k * std::numbers::pi / 4;
                const Vec3 n = (best + step * (std::cos(a) * p + std::sin(a) * q)).normalized();
                const double v = along(n);
                better = v < value;
                if (better) {
                    value = v;
                    best = n;
                }
            }
            row = better ? row + 1 : 0;
            if (!better) step /= 2;
            if (row == 3) {
                step = std::min(first, 4 * step);
                row = 0;
            }
        }
        m_least = std::min(m_least, narrowed(best, value));
    }

    /// Least overlap about a direction near it, by Newton's way on the sphere: the overlap's slope is the
    /// farthest point of the difference, and it bends as the two rims do, r / sin(angle to the axis) round
    /// each axis.
    [[nodiscard]] double narrowed(Vec3 n, double value) const {
        for (int round = 0; round < 40; ++round) {
            const Vec3 u = n.unitOrthogonal(), v = n.cross(u), far = m_a.support(n) - m_b.support(-n);
            const Vec2 slope(far.dot(u), far.dot(v));
            Eigen::Matrix2d bend = -value * Eigen::Matrix2d::Identity();
            for (const Core* core : {&m_a, &m_b}) {
                const Vec3 across = core->axis.cross(n);
                const double sine = across.norm();
                if (sine < 1e-9) return value;
                const Vec2 way(across.dot(u) / sine, across.dot(v) / sine);
                bend += core->radius / sine * way * way.transpose();
            }
            Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen;
            eigen.computeDirect(bend);
            Vec2 step = Vec2::Zero(); // downhill also where it bends the other way
            for (int i = 0; i < 2; ++i) {
                const Vec2 e = eigen.eigenvectors().col(i);
                step -= e * (e.dot(slope) / std::max(std::abs(eigen.eigenvalues()[i]), 1e-6));
            }
            step *= std::min(1.0, 0.3 / std::max(step.norm(), 1e-300));
            bool better = false;
            for (double share = 1; share > 1e-4 && !better; share /= 2) {
                const Vec3 next = (n + share * (step.x() * u + step.y() * v)).normalized();
                const double there = along(next);
                better = there < value;
                if (better) {
                    value = there;
                    n = next;
                }
            }
            if (!better || step.norm() < 1e-10) return value;
        }
        return value;
    }

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
