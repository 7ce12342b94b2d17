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
    std::vector<Vec3> corners;
    for (std::size_t i = 0; i < planes.size(); ++i)
        for (std::size_t j = i + 1; j < planes.size(); ++j)
            for (std::size_t k = j + 1; k < planes.size(); ++k) {
                Mat3 m;
                m << planes[i].normal.transpose(), planes[j].normal.transpose(), planes[k].normal.transpose();
                if (std::abs(m.determinant()) < 1e-7) continue;
                const Vec3 p = m.inverse() * Vec3(planes[i].offset, planes[j].offset, planes[k].offset);
                bool in = true;
                for (const Plane& plane : planes) in = in && plane.distance(p) < 1e-7;
                if (in) corners.push_back(p);
            }
    if (corners.size() < 4) return 0;
    return volume(convexHull3(corners));
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
