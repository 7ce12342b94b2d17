#include "core/body/join_events.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <set>

namespace slab {

namespace {

constexpr double apart = 1e-3; ///< mm; from here on things surely do not touch

enum class Lies { outside, on, inside, unsure };

/// One solid with what is asked of it again and again.
class Probed {
public:
    Probed(const Polyhedron& solid, int firstFace, double touch)
        : m_solid(solid), m_first(firstFace), m_touch(touch), m_box(slab::bounds(solid)) {
        for (const PolyFace& face : solid.faces) {
            Box3 box{at(face.loops.front().front()), at(face.loops.front().front())};
            for (int v : face.loops.front()) box = united(box, {at(v), at(v)});
            m_boxes.push_back(box);
        }
        m_convex = std::all_of(solid.faces.begin(), solid.faces.end(), [&](const PolyFace& f) {
            return f.loops.size() == 1 &&
                   std::all_of(solid.vertices.begin(), solid.vertices.end(),
                               [&](const Vec3& p) { return f.plane.distance(p) < touch; });
        });
        std::set<std::pair<int, int>> edges;
        for (const PolyFace& f : solid.faces)
            for (const auto& loop : f.loops)
                for (std::size_t i = 0; i < loop.size(); ++i)
                    edges.insert(std::minmax(loop[i], loop[(i + 1) % loop.size()]));
        m_edges.assign(edges.begin(), edges.end());
    }

    [[nodiscard]] const Box3& box() const { return m_box; }
    [[nodiscard]] const Box3& box(std::size_t face) const { return m_boxes[face]; }
    [[nodiscard]] const Polyhedron& solid() const { return m_solid; }
    [[nodiscard]] const std::vector<std::pair<int, int>>& edges() const { return m_edges; }
    [[nodiscard]] int flat(std::size_t face) const { return m_first + static_cast<int>(face); }
    [[nodiscard]] const Vec3& at(int v) const { return m_solid.vertices[static_cast<std::size_t>(v)]; }

    /// A point against one face; `inside` = within its region.
    [[nodiscard]] Lies onFace(std::size_t f, const Vec3& p) const {
        const PolyFace& face = m_solid.faces[f];
        const double off = std::abs(face.plane.distance(p));
        if (off > apart || !within(m_boxes[f], p, apart)) return Lies::outside;
        int w = 0;
        face.plane.normal.cwiseAbs().maxCoeff(&w);
        const int u = (w + 1) % 3, v = (w + 2) % 3;
        bool in = false, border = false;
        for (const auto& loop : face.loops)
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const Vec3 &a = at(loop[i]), &b = at(loop[(i + 1) % loop.size()]);
                const double d = distance(p, a, b);
                if (d <= m_touch)
                    border = true;
                else if (d < apart)
                    return Lies::unsure;
                if ((a[v] > p[v]) == (b[v] > p[v])) continue;
                if (p[u] < a[u] + (p[v] - a[v]) / (b[v] - a[v]) * (b[u] - a[u])) in = !in;
            }
        if (!in && !border) return Lies::outside;
        return off <= m_touch ? Lies::on : Lies::unsure;
    }

    /// A point that is on none of the faces.
    [[nodiscard]] bool holds(const Vec3& p) const {
        if (!within(m_box, p, 0)) return false;
        if (m_convex)
            return std::all_of(m_solid.faces.begin(), m_solid.faces.end(),
                               [&](const PolyFace& f) { return f.plane.distance(p) < 0; });
        // Solid angles of all faces seen from p: 4π inside, 0 outside (A. van Oosterom, J. Strackee, "The
        // solid angle of a plane triangle", 1983).
        double sum = 0;
        for (const PolyFace& face : m_solid.faces)
            for (const auto& loop : face.loops)
                for (std::size_t i = 1; i + 1 < loop.size(); ++i) {
                    const Vec3 a = at(loop[0]) - p, b = at(loop[i]) - p, c = at(loop[i + 1]) - p;
                    const double la = a.norm(), lb = b.norm(), lc = c.norm();
                    sum += 2 * std::atan2(a.dot(b.cross(c)),
                                          la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb);
                }
        return sum > 2 * std::numbers::pi;
    }

    static bool within(const Box3& box, const Vec3& p, double reach) {
        return (p.array() >= box.min.array() - reach).all() && (p.array() <= box.max.array() + reach).all();
    }

private:
    const Polyhedron& m_solid;
    int m_first;
    double m_touch;
    Box3 m_box;
    std::vector<Box3> m_boxes;
    std::vector<std::pair<int, int>> m_edges;
    bool m_convex = false;

    static double distance(const Vec3& p, const Vec3& a, const Vec3& b) {
        const Vec3 d = b - a;
        const double t = std::clamp((p - a).dot(d) / std::max(d.squaredNorm(), 1e-30), 0.0, 1.0);
        return (a + t * d - p).norm();
    }
};

bool meet(const Box3& a, const Box3& b) {
    return (a.min.array() <= b.max.array() + apart).all() && (b.min.array() <= a.max.array() + apart).all();
}
Box3 common(const Box3& a, const Box3& b) {
    return {a.min.cwiseMax(b.min), a.max.cwiseMin(b.max)};
}

class Finder {
public:
    explicit Finder(const std::vector<Polyhedron>& solids) {
        double size = 0;
        for (const Polyhedron& s : solids)
            for (const Vec3& p : s.vertices) size = std::max(size, p.cwiseAbs().maxCoeff());
        // A hundred times what planeNumbers() calls one plane, and far below `apart`.
        const double touch = 1e-6 + 1e-9 * size;
        m_sure = touch < apart / 10;
        int flat = 0;
        m_solids.reserve(solids.size());
        for (const Polyhedron& s : solids) {
            m_solids.emplace_back(s, flat, touch);
            flat += static_cast<int>(s.faces.size());
        }
    }

    JoinEvents run() {
        corners();
        for (std::size_t i = 0; i < m_solids.size() && m_sure; ++i)
            for (std::size_t k = 0; k < m_solids.size(); ++k)
                if (i != k && meet(m_solids[i].box(), m_solids[k].box())) piercings(i, m_solids[k]);
        for (std::size_t i = 0; i < m_solids.size(); ++i)
            for (std::size_t j = i + 1; j < m_solids.size(); ++j)
                if (meet(m_solids[i].box(), m_solids[j].box()))
                    for (std::size_t k = j + 1; k < m_solids.size() && m_sure; ++k)
                        threes(m_solids[i], m_solids[j], m_solids[k]);
        return {std::move(m_found), m_sure};
    }

private:
    std::vector<Probed> m_solids;
    std::vector<JoinEvent> m_found;
    bool m_sure = true;

    /// Notes a place unless it lies inside a solid.
    void note(const std::array<int, 5>& key, const Vec3& p) {
        JoinEvent event{key, {}, p};
        bool sure = true;
        for (const Probed& s : m_solids) {
            if (!Probed::within(s.box(), p, apart)) continue;
            bool touches = false;
            for (std::size_t f = 0; f < s.solid().faces.size(); ++f) {
                const Lies lies = s.onFace(f, p);
                if (lies == Lies::outside) continue;
                touches = true;
                if (lies == Lies::unsure) sure = false;
                event.faces.push_back(s.flat(f));
            }
            if (!touches && s.holds(p)) return;
        }
        if (!sure) m_sure = false;
        m_found.push_back(std::move(event));
    }

    void corners() {
        for (std::size_t i = 0; i < m_solids.size() && m_sure; ++i)
            for (std::size_t v = 0; v < m_solids[i].solid().vertices.size(); ++v)
                note({0, static_cast<int>(i), static_cast<int>(v), -1, -1}, m_solids[i].solid().vertices[v]);
    }

    void piercings(std::size_t i, const Probed& other) {
        const Probed& own = m_solids[i];
        for (const auto& [a, b] : own.edges()) {
            const Vec3 &p = own.at(a), &q = own.at(b);
            const Box3 box = united(Box3{p, p}, Box3{q, q});
            if (!meet(box, other.box())) continue;
            for (std::size_t f = 0; f < other.solid().faces.size(); ++f) {
                if (!meet(box, other.box(f))) continue;
                const Plane& plane = other.solid().faces[f].plane;
                const double da = plane.distance(p), db = plane.distance(q);
                // Where an end lies in the plane, that corner tells it.
                if (da * db >= 0 || std::min(std::abs(da), std::abs(db)) < 1e-9) continue;
                const Vec3 x = p + (q - p) * (da / (da - db));
                if (other.onFace(f, x) == Lies::outside) continue;
                note({1, static_cast<int>(i), a, b, other.flat(f)}, x);
            }
        }
    }

    void threes(const Probed& a, const Probed& b, const Probed& c) {
        if (!meet(a.box(), c.box()) || !meet(b.box(), c.box())) return;
        const Box3 all = common(a.box(), common(b.box(), c.box()));
        for (std::size_t f = 0; f < a.solid().faces.size(); ++f) {
            if (!meet(a.box(f), all)) continue;
            for (std::size_t g = 0; g < b.solid().faces.size(); ++g) {
                if (!meet(b.box(g), all) || !meet(a.box(f), b.box(g))) continue;
                const Vec3 line = a.solid().faces[f].plane.normal.cross(b.solid().faces[g].plane.normal);
                for (std::size_t h = 0; h < c.solid().faces.size(); ++h)
                    if (meet(c.box(h), all)) three(a, f, b, g, c, h, line);
            }
        }
    }

    void three(const Probed& a, std::size_t f, const Probed& b, std::size_t g, const Probed& c, std::size_t h,
               const Vec3& line) {
        const Plane &p = a.solid().faces[f].plane, &q = b.solid().faces[g].plane,
                    &r = c.solid().faces[h].plane;
        const double det = line.dot(r.normal);
        if (std::abs(det) < 1e-7) return;
        const Vec3 x =
            (p.offset * q.normal.cross(r.normal) + q.offset * r.normal.cross(p.normal) + r.offset * line) /
            det;
        if (a.onFace(f, x) == Lies::outside || b.onFace(g, x) == Lies::outside ||
            c.onFace(h, x) == Lies::outside)
            return;
        note({2, a.flat(f), b.flat(g), c.flat(h), -1}, x);
    }
};

} // namespace

JoinEvents joinEvents(const std::vector<Polyhedron>& solids) {
    return Finder(solids).run();
}

} // namespace slab
