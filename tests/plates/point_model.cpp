#include "point_model.h"
#include <cmath>
#include <numbers>

namespace slab::test {

namespace {

constexpr double pi = std::numbers::pi;

Vec3 threePlanes(const Plane& a, const Plane& b, const Plane& c) {
    Mat3 m;
    m << a.normal.transpose(), b.normal.transpose(), c.normal.transpose();
    return m.inverse() * Vec3(a.offset, b.offset, c.offset);
}

bool alike(const Plane& a, const Plane& b, const Vec3& faceNormal) {
    const Vec3 u = faceNormal.cross(a.normal).normalized(), v = faceNormal.cross(b.normal).normalized();
    return u.cross(v).norm() < 1e-4;
}

bool same(const Plane& a, const Plane& b) {
    return (a.normal - b.normal).norm() < 1e-8 && std::abs(a.offset - b.offset) < 1e-6;
}

Plane shifted(Plane p, double by) {
    p.offset += by;
    return p;
}

int turns(const std::vector<Vec3>& ring, const Vec3& p, const Vec3& n) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec3 a = ring[i] - p, b = ring[(i + 1) % ring.size()] - p;
        sum += std::atan2(n.dot(a.cross(b)), a.dot(b));
    }
    return static_cast<int>(std::lround(sum / (2 * pi)));
}

} // namespace

PointModel::PointModel(const Body& body, const PlateRules& rules, bool whole)
    : m_body(body), m_rules(rules), m_whole(whole) {
    m_solid = toPolyhedron(body.skin);
    for (const auto& e : body.skin.edges) {
        m_edges[{e.a, e.b}] = &e;
        m_edges[{e.b, e.a}] = &e;
    }
    for (std::size_t f = 0; f < body.skin.faces.size(); ++f) {
        auto& loops = m_lines.emplace_back();
        m_all.push_back(body.skin.faces[f].plane);
        m_all.push_back(shifted(body.skin.faces[f].plane, -rules.faces[f].thickness));
        for (const auto& loop : body.skin.faces[f].loops) {
            loops.push_back(linesOf(static_cast<int>(f), loop));
            for (const Line& l : loops.back()) m_all.push_back(l.plane);
        }
    }
}

Plane PointModel::boundary(int face, const SkinEdge& e) const {
    const int g = e.left == face ? e.right : e.left;
    const Plane& pf = m_body.skin.faces[static_cast<std::size_t>(face)].plane;
    const Plane& pg = m_body.skin.faces[static_cast<std::size_t>(g)].plane;
    const FaceChoice& cf = m_rules.faces[static_cast<std::size_t>(face)];
    const FaceChoice& cg = m_rules.faces[static_cast<std::size_t>(g)];
    const bool valley = e.dihedral > pi;
    const double folded = valley ? 2 * pi - e.dihedral : e.dihedral;
    const double tf = cf.thickness, tg = cg.thickness;
    if (tg > 0 && tf > 0 && !m_whole) {
        const bool outside = std::abs(pi / 2 - folded) > pi / 4 + 1e-7;
        const bool mitre = cf.rank == cg.rank || outside || m_rules.fallback == JointKind::mitre;
        const double s = std::sin(e.dihedral), c = std::cos(e.dihedral);
        const bool equal = std::abs(tf - tg) < 1e-9;
        const bool steep = !equal && (std::abs((tg + tf * c) / s) > tf * (1 + 1e-9) ||
                                      std::abs((tf + tg * c) / s) > tg * (1 + 1e-9));
        if (mitre && (steep || folded > 0.75 * pi + 1e-7)) {
            const Vec3& a = m_body.skin.vertices[static_cast<std::size_t>(e.a)];
            const Vec3 along = (m_body.skin.vertices[static_cast<std::size_t>(e.b)] - a).normalized();
            const Vec3 sum = (pf.normal + pg.normal).normalized();
            Vec3 n = steep || equal ? Vec3(sum.cross(along))
                                    : Vec3((pg.normal / tg - pf.normal / tf).normalized());
            if (n.norm() < 1e-9) n = pf.normal.cross(along);
            n.normalize();
            // f's own edge normal, out of the face, tells the sign
            const Vec3 out = (e.left == face ? 1.0 : -1.0) * along.cross(pf.normal);
            if (n.dot(out) < 0) n = -n;
            return {n, n.dot(a)};
        }
    }
    if (!valley) return pg;
    return {-pg.normal, -(pg.offset - tg)};
}

std::vector<PointModel::Line> PointModel::linesOf(int face, const std::vector<int>& loop) const {
    const Vec3& n = m_body.skin.faces[static_cast<std::size_t>(face)].plane.normal;
    std::vector<Line> lines;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const int a = loop[i], b = loop[(i + 1) % loop.size()];
        const Vec3& pa = m_body.skin.vertices[static_cast<std::size_t>(a)];
        const Vec3& pb = m_body.skin.vertices[static_cast<std::size_t>(b)];
        const Line line{boundary(face, *m_edges.at({a, b})), pa, (pb - pa).normalized(), false};
        if (!lines.empty() && same(lines.back().plane, line.plane)) continue;
        lines.push_back(line);
    }
    if (lines.size() > 1 && same(lines.front().plane, lines.back().plane)) lines.erase(lines.begin());
    std::vector<Line> linked;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        linked.push_back(lines[i]);
        const Line& next = lines[(i + 1) % lines.size()];
        if (alike(lines[i].plane, next.plane, n))
            linked.push_back({{next.along, next.along.dot(next.own)}, next.own, n.cross(next.along), true});
    }
    return linked;
}

bool PointModel::inSkin(const Vec3& p) const {
    return contains(m_solid, p);
}

bool PointModel::inZone(int face, const Vec3& p) const {
    const auto f = static_cast<std::size_t>(face);
    const Plane& plane = m_body.skin.faces[f].plane;
    const double t = m_rules.faces[f].thickness;
    if (!(t > 0) || plane.depth(p) < 0 || plane.depth(p) > t) return false;
    const Plane level = shifted(plane, -plane.depth(p));
    int sum = 0;
    bool regular = true;
    const auto corner = [&](const std::vector<Line>& l, std::size_t i, const Plane& at, double share) {
        const auto moved = [&](const Line& k) {
            // from the face's own edge (0) to the zone's boundary (1), at the level `at`
            const Vec3 side = at.normal.cross(k.along);
            const Vec3 start = k.own - at.normal * (at.normal.dot(k.own) - at.offset);
            const double reach = -k.plane.distance(start) / k.plane.normal.dot(side);
            return Plane{side, side.dot(start) + share * reach};
        };
        const std::size_t before = (i + l.size() - 1) % l.size();
        if (share >= 1) return threePlanes(l[before].plane, l[i].plane, at);
        return threePlanes(moved(l[before]), moved(l[i]), at);
    };
    for (const auto& lines : m_lines[f])
        for (const double d : {0.0, t})
            for (std::size_t i = 0; i < lines.size() && regular; ++i) {
                const Plane at = shifted(plane, -d);
                const Vec3 step = corner(lines, (i + 1) % lines.size(), at, 1) - corner(lines, i, at, 1);
                if (!lines[i].link && step.dot(lines[i].along) < -1e-9) regular = false;
            }
    for (auto lines : m_lines[f]) {
        for (double share = 0;
             !regular && lines.size() >= 3;) { // take out edges in the order they shrink away
            double first = 2;
            std::size_t gone = 0;
            for (std::size_t i = 0; i < lines.size(); ++i) {
                if (lines[i].link) continue;
                const std::size_t k = (i + 1) % lines.size();
                const double now = std::max(
                    0.0,
                    (corner(lines, k, level, share) - corner(lines, i, level, share)).dot(lines[i].along));
                const double then =
                    (corner(lines, k, level, 1) - corner(lines, i, level, 1)).dot(lines[i].along);
                if (then >= -1e-9) continue;
                const double when = share + (1 - share) * now / (now - then);
                if (when < first) {
                    first = when;
                    gone = i;
                }
            }
            if (first > 1) break;
            share = first;
            const std::size_t n = lines.size();
            if (alike(lines[(gone + n - 1) % n].plane, lines[(gone + 1) % n].plane, plane.normal)) {
                lines[gone].link = true;
                int left = 0;
                for (const Line& l : lines) left += !l.link;
                if (left < 3) lines.clear();
            } else {
                lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(gone));
            }
        }
        if (lines.size() < 3) continue;
        std::vector<Vec3> ring;
        for (std::size_t i = 0; i < lines.size(); ++i) ring.push_back(corner(lines, i, level, 1));
        sum += turns(ring, p, plane.normal);
    }
    return sum > 0 && inSkin(p);
}

bool PointModel::inShell(const Vec3& p) const {
    for (std::size_t f = 0; f < m_body.skin.faces.size(); ++f)
        if (inZone(static_cast<int>(f), p)) return true;
    return false;
}

double PointModel::leastPlaneDistance(const Vec3& p) const {
    double least = 1e9;
    for (const Plane& plane : m_all) least = std::min(least, std::abs(plane.distance(p)));
    return least;
}

} // namespace slab::test
