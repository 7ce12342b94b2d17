#include "fixtures.h"
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace slab::test {

Polyhedron hullOf(const std::vector<Vec3>& points) {
    Polyhedron hull = convexHull3(points);
    for (std::size_t i = 0; i < hull.faces.size(); ++i) hull.faces[i].name = "f" + std::to_string(i);
    return hull;
}

Polyhedron frustum(int sides, double base, double top, double height) {
    std::vector<Vec3> points;
    for (int i = 0; i < sides; ++i) {
        const double a = 2 * std::numbers::pi * i / sides;
        points.emplace_back(base * std::cos(a), base * std::sin(a), 0);
        if (top > 0) points.emplace_back(top * std::cos(a), top * std::sin(a), height);
    }
    if (top <= 0) points.emplace_back(0, 0, height);
    return hullOf(points);
}

Polyhedron regularSolid(int faces) {
    const double phi = std::numbers::phi;
    std::vector<Vec3> points;
    const auto cube = [&] {
        for (int i = 0; i < 8; ++i) points.emplace_back(i & 1 ? 1 : -1, i & 2 ? 1 : -1, i & 4 ? 1 : -1);
    };
    const auto cyclic = [&](double a, double b) {
        for (int i = 0; i < 4; ++i) {
            const double x = i & 1 ? a : -a, y = i & 2 ? b : -b;
            points.emplace_back(0, x, y);
            points.emplace_back(x, y, 0);
            points.emplace_back(y, 0, x);
        }
    };
    switch (faces) {
    case 4:
        points = {{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}};
        break;
    case 6:
        cube();
        break;
    case 8:
        for (int i = 0; i < 3; ++i) {
            points.emplace_back(Vec3::Unit(i));
            points.emplace_back(-Vec3::Unit(i));
        }
        break;
    case 12:
        cube();
        cyclic(1 / phi, phi);
        break;
    case 20:
        cyclic(1, phi);
        break;
    default:
        throw std::invalid_argument("no such solid");
    }
    for (Vec3& p : points) p *= 100;
    return hullOf(points);
}

Body bodyOf(const Polyhedron& solid) {
    auto skin = makeSkin(solid);
    if (!skin) throw std::runtime_error(skin.error().message);
    Body body;
    body.skin = *skin;
    body.volume = volume(solid);
    body.bounds = bounds(solid);
    return body;
}

PlateRules rulesFor(const Body& body, const std::vector<double>& thickness, const std::vector<int>& rank) {
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i) {
        const double t = thickness[i % thickness.size()];
        rules.faces.push_back({t > 0 ? "sheet " + std::to_string(t) : "", t, rank[i % rank.size()]});
    }
    return rules;
}

PlateRules evenRules(const Body& body, double thickness, JointKind fallback) {
    PlateRules rules = rulesFor(body, {thickness}, {0});
    rules.fallback = fallback;
    return rules;
}

double volumeOfPlanes(const std::vector<Plane>& planes) {
    double sum = 0;
    for (std::size_t i = 0; i < planes.size(); ++i) {
        const Vec3& n = planes[i].normal;
        const Vec3 u = n.unitOrthogonal(), v = n.cross(u), o = n * planes[i].offset;
        constexpr double far = 1e4; // mm: more than any test body
        Ring ring{{-far, -far}, {far, -far}, {far, far}, {-far, far}};
        bool gone = false;
        for (std::size_t k = 0; k < planes.size() && !gone && ring.size() >= 3; ++k) {
            if (k == i) continue;
            const Vec2 m(planes[k].normal.dot(u), planes[k].normal.dot(v));
            const double c = planes[k].offset - planes[k].normal.dot(o);
            if (m.norm() < 1e-8) { // parallel: the same plane counts once, one in front empties this one
                gone = planes[k].normal.dot(n) > 0 ? c < -1e-8 || (c < 1e-8 && k < i) : c < -1e-8;
                continue;
            }
            Ring rest;
            for (std::size_t j = 0; j < ring.size(); ++j) {
                const Vec2& a = ring[j];
                const Vec2& b = ring[(j + 1) % ring.size()];
                const double da = m.dot(a) - c, db = m.dot(b) - c;
                if (da <= 0) rest.push_back(a);
                if (da * db < 0) rest.emplace_back(a + da / (da - db) * (b - a));
            }
            ring = std::move(rest);
        }
        if (!gone && ring.size() >= 3) sum += planes[i].offset * signedArea(ring) / 3;
    }
    return sum;
}

double sumOfVolumes(const PlateSet& set) {
    double sum = 0;
    for (const Plate& p : set.plates) sum += p.volume;
    return sum;
}

double sumOfGaps(const PlateSet& set) {
    double sum = 0;
    for (const Misfit& m : set.gaps) sum += m.volume;
    return sum;
}

const Plate* findPlate(const PlateSet& set, const std::string& name) {
    for (const Plate& p : set.plates)
        if (p.name == name) return &p;
    return nullptr;
}

const PanelEdge* findEdge(const Plate& plate, const std::string& neighbour) {
    for (const PanelEdge& e : plate.boundary.edges)
        if (e.neighbour == neighbour) return &e;
    return nullptr;
}

} // namespace slab::test
