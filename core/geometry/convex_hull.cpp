#include "core/geometry/convex_hull.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

class Wrapper {
public:
    explicit Wrapper(const std::vector<Vec3>& points) { takeDistinct(points); }

    Polyhedron wrap() {
        if (m_points.size() < 3) return {};
        m_done.assign(m_points.size() * m_points.size(), false);
        if (!firstFace()) return {};
        // Every hull of n points has at most 2n - 4 faces; the bound only stops a set that is too degenerate.
        const std::size_t most = 2 * m_points.size() + 4;
        while (!m_open.empty() && m_faces.size() < most) {
            const auto [p, q, normal] = m_open.back();
            m_open.pop_back();
            if (!done(q, p)) pivot(p, q, normal);
        }
        return gathered();
    }

private:
    struct OpenEdge {
        int p, q;
        Vec3 normal;
    };
    [[nodiscard]] const Vec3& at(int i) const { return m_points[static_cast<std::size_t>(i)]; }
    [[nodiscard]] std::size_t slot(int p, int q) const {
        return static_cast<std::size_t>(p) * m_points.size() + static_cast<std::size_t>(q);
    }
    [[nodiscard]] bool done(int p, int q) const { return m_done[slot(p, q)]; }

    void takeDistinct(const std::vector<Vec3>& points) {
        if (points.empty()) return;
        Vec3 low = points.front(), high = points.front();
        for (const Vec3& p : points) {
            low = low.cwiseMin(p);
            high = high.cwiseMax(p);
        }
        m_eps = 1e-10 * (high - low).norm();
        for (const Vec3& p : points)
            if (std::none_of(m_points.begin(), m_points.end(),
                             [&](const Vec3& q) { return (p - q).squaredNorm() <= m_eps * m_eps; }))
                m_points.push_back(p);
    }

    /// The point that a plane through line (origin, along), turned from `out` towards `-normal`, meets first.
    [[nodiscard]] int firstMet(const Vec3& origin, const Vec3& along, const Vec3& normal, Vec3& into) const {
        const Vec3 out = along.cross(normal);
        int best = -1;
        double bestForward = 0, bestDown = 0, bestReach = 0;
        for (int i = 0; i < static_cast<int>(m_points.size()); ++i) {
            const Vec3 d = at(i) - origin;
            double forward = d.dot(out), down = -d.dot(normal);
            // What lies in the plane of the face itself is met last, not first: no sinking below it by
            // rounding.
            if (down <= m_eps) down = 0;
            const double reach = forward * forward + down * down;
            if (reach <= m_eps * m_eps) continue;
            if (best >= 0) {
                // Both turn by 0 to 180 degrees from `out`: the sign of the cross product orders them.
                const double turn = bestForward * down - bestDown * forward;
                const double level = 1e-10 * std::sqrt(reach * bestReach);
                const bool opposite = bestForward * forward + bestDown * down < 0 && std::abs(turn) <= level;
                if (opposite ? forward < 0 : turn > level || (turn >= -level && reach <= bestReach)) continue;
            }
            best = i;
            bestForward = forward;
            bestDown = down;
            bestReach = reach;
        }
        if (best >= 0) into = (bestForward * out - bestDown * normal) / std::sqrt(bestReach);
        return best;
    }

    bool firstFace() {
        const auto lower = [&](const Vec3& a, const Vec3& b) {
            return std::lexicographical_compare(a.data(), a.data() + 3, b.data(), b.data() + 3);
        };
        const auto low = std::min_element(m_points.begin(), m_points.end(), lower);
        const Vec3 origin = *low;
        const int start = static_cast<int>(low - m_points.begin());
        Vec3 into;
        Vec3 along = Vec3::UnitZ();
        Vec3 normal = -Vec3::UnitX();
        const int second = firstMet(origin, along, normal, into);
        if (second < 0) return false; // all on one upright line
        normal = into.cross(along).normalized();
        along = at(second) - origin;
        along = (along - along.dot(normal) * normal).normalized();
        if (firstMet(origin, along, normal, into) < 0) return false; // all on one line
        return pivot(start, second, normal);
    }

    /// Adds the face across edge p -> q of a face with this normal.
    bool pivot(int p, int q, const Vec3& normal) {
        const Vec3 along = (at(q) - at(p)).normalized();
        const Vec3 squared = (normal - normal.dot(along) * along).normalized();
        Vec3 into;
        if (firstMet(at(p), along, squared, into) < 0) return false;
        const Vec3 turned = into.cross(along).normalized();
        std::vector<int> on;
        for (int i = 0; i < static_cast<int>(m_points.size()); ++i)
            if (std::abs(turned.dot(at(i) - at(p))) <= 4 * m_eps) on.push_back(i);
        return addFace(loopAround(on, turned));
    }

    /// Corners of the flat set's own hull, counter-clockwise about `normal`; points along an edge are
    /// dropped.
    [[nodiscard]] std::vector<int> loopAround(std::vector<int> on, const Vec3& normal) const {
        const Vec3 u = normal.unitOrthogonal(), v = normal.cross(u);
        const auto flat = [&](int i) { return Vec2(u.dot(at(i)), v.dot(at(i))); };
        std::sort(on.begin(), on.end(), [&](int i, int j) {
            const Vec2 a = flat(i), b = flat(j);
            return std::abs(a.x() - b.x()) > m_eps ? a.x() < b.x() : a.y() < b.y();
        });
        std::vector<int> loop;
        const auto half = [&](auto begin, auto end) {
            const std::size_t keep = loop.size() + 1;
            for (auto it = begin; it != end; ++it) {
                while (loop.size() > keep) {
                    const Vec2 a = flat(loop[loop.size() - 2]), b = flat(loop.back()), c = flat(*it);
                    if (cross2(b - a, c - a) > 2 * m_eps * (c - a).norm()) break;
                    loop.pop_back();
                }
                loop.push_back(*it);
            }
            loop.pop_back();
        };
        half(on.begin(), on.end());
        half(on.rbegin(), on.rend());
        return loop;
    }

    bool addFace(std::vector<int> loop) {
        if (loop.size() < 3) return false;
        for (std::size_t i = 0; i < loop.size(); ++i)
            if (done(loop[i], loop[(i + 1) % loop.size()])) return false;
        Vec3 newell = Vec3::Zero(), centre = Vec3::Zero();
        for (std::size_t i = 0; i < loop.size(); ++i) {
            newell += (at(loop[i]) - at(loop[0])).cross(at(loop[(i + 1) % loop.size()]) - at(loop[0]));
            centre += at(loop[i]) / static_cast<double>(loop.size());
        }
        PolyFace face;
        face.plane.normal = newell.normalized();
        face.plane.offset = face.plane.normal.dot(centre);
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const int p = loop[i], q = loop[(i + 1) % loop.size()];
            m_done[slot(p, q)] = true;
            m_open.push_back({p, q, face.plane.normal});
        }
        face.loops.push_back(std::move(loop));
        m_faces.push_back(std::move(face));
        return true;
    }

    Polyhedron gathered() {
        Polyhedron out;
        std::vector<int> index(m_points.size(), -1);
        for (PolyFace& face : m_faces)
            for (int& i : face.loops[0]) {
                int& k = index[static_cast<std::size_t>(i)];
                if (k < 0) {
                    k = static_cast<int>(out.vertices.size());
                    out.vertices.push_back(at(i));
                }
                i = k;
            }
        out.faces = std::move(m_faces);
        return out;
    }

    std::vector<Vec3> m_points;
    std::vector<PolyFace> m_faces;
    std::vector<OpenEdge> m_open;
    std::vector<bool> m_done; ///< directed edges that have their face, point × point
    double m_eps = 0;
};

/// Part of a flat convex ring on the inner side of a plane.
void clip(std::vector<Vec3>& ring, const Plane& plane, std::vector<Vec3>& work) {
    work.clear();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec3 &p = ring[i], &q = ring[(i + 1) % ring.size()];
        const double dp = plane.depth(p), dq = plane.depth(q);
        if (dp >= 0) work.push_back(p);
        if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) work.push_back(p + (q - p) * (dp / (dp - dq)));
    }
    ring.swap(work);
}

bool isShared(const PolyFace& face, const Polyhedron& owner, const Polyhedron& other, double eps) {
    return std::any_of(other.faces.begin(), other.faces.end(), [&](const PolyFace& g) {
        return g.plane.normal.dot(face.plane.normal) > 0.5 &&
               std::all_of(face.loops[0].begin(), face.loops[0].end(), [&](int i) {
                   return std::abs(g.plane.depth(owner.vertices[static_cast<std::size_t>(i)])) <= eps;
               });
    });
}

/// Adds the cones from `origin` over the faces of `a` as far as they lie in `b`.
void addCones(const Polyhedron& a, const Polyhedron& b, bool skipShared, const Vec3& origin,
              CommonPart& sum) {
    const Vec3 size = bounds(a).size() + bounds(b).size();
    std::vector<Vec3> ring, work;
    for (const PolyFace& face : a.faces) {
        if (skipShared && isShared(face, a, b, 1e-11 * size.norm())) continue;
        ring.clear();
        for (int i : face.loops[0]) ring.push_back(a.vertices[static_cast<std::size_t>(i)] - origin);
        for (const PolyFace& g : b.faces) {
            if (ring.size() < 3) break;
            clip(ring, {g.plane.normal, g.plane.depth(origin)}, work);
        }
        for (std::size_t i = 2; i < ring.size(); ++i) {
            const double v = ring[0].dot(ring[i - 1].cross(ring[i])) / 6;
            sum.volume += v;
            sum.centroid += v * (ring[0] + ring[i - 1] + ring[i]) / 4;
        }
    }
}

} // namespace

Polyhedron convexHull3(const std::vector<Vec3>& points) {
    return Wrapper(points).wrap();
}

CommonPart commonPart(const Polyhedron& a, const Polyhedron& b) {
    CommonPart sum;
    if (a.faces.empty() || b.faces.empty()) return sum;
    const Box3 ba = bounds(a), bb = bounds(b);
    const Vec3 origin = (ba.min.cwiseMax(bb.min) + ba.max.cwiseMin(bb.max)) / 2;
    addCones(a, b, false, origin, sum);
    addCones(b, a, true, origin, sum);
    if (sum.volume > 0) {
        sum.centroid = origin + sum.centroid / sum.volume;
    } else {
        sum = {0, origin};
    }
    return sum;
}

} // namespace slab
