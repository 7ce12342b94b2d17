// Convex bodies: the plates fill the shell to rounding, whatever the joints.
#include "fixtures.h"
#include <chrono>
#include <cmath>
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::test;

namespace {

/// vol(skin) - vol(skin shifted inward), by brute force.
double shellOf(const Body& body, const PlateRules& rules) {
    std::vector<Plane> outer, inner;
    for (std::size_t f = 0; f < body.skin.faces.size(); ++f) {
        Plane p = body.skin.faces[f].plane;
        outer.push_back(p);
        p.offset -= rules.faces[f].thickness;
        inner.push_back(p);
    }
    EXPECT_NEAR(volumeOfPlanes(outer) / body.volume, 1, 1e-9) << "body itself";
    return body.volume - volumeOfPlanes(inner);
}

/// Planes of a cell; those that lie on the plate's surface as the plate knows them, as a hull's own are only
/// as good as its corners are far apart.
void addPlanes(const Plate& plate, const ConvexSolid& cell, std::vector<Plane>& planes) {
    const Polyhedron hull = convexHull3(cell.points);
    for (const auto& f : hull.faces) {
        Plane plane = f.plane;
        double nearest = 1e-6;
        for (const auto& g : plate.solid.faces) {
            double off = (g.plane.normal - plane.normal).norm() < 1e-3 ? 0 : 1;
            for (const int v : f.loops.front())
                off = std::max(off, std::abs(g.plane.distance(hull.vertices[static_cast<std::size_t>(v)])));
            if (off >= nearest) continue;
            nearest = off;
            plane = g.plane;
        }
        planes.push_back(plane);
    }
}

double commonVolume(const Plate& p, const ConvexSolid& a, const Plate& q, const ConvexSolid& b) {
    const Box3 x = bounds(a), y = bounds(b);
    if (((x.min - y.max).array() > -1e-9).any() || ((y.min - x.max).array() > -1e-9).any()) return 0;
    std::vector<Plane> planes;
    addPlanes(p, a, planes);
    addPlanes(q, b, planes);
    return volumeOfPlanes(planes);
}

void expectFilled(const Body& body, const PlateRules& rules, const std::string& what) {
    const PlateSet set = buildPlates(body, rules);
    const double shell = shellOf(body, rules);
    EXPECT_NEAR((sumOfVolumes(set) + sumOfGaps(set)) / shell, 1, 1e-9) << what;
    for (const Plate& p : set.plates) {
        EXPECT_NEAR(volume(p.solid) / p.volume, 1, 1e-8) << what << " " << p.name;
        const auto closed = checkClosed(p.solid);
        EXPECT_TRUE(closed) << what << " " << p.name << ": " << (closed ? "" : closed.error().message);
    }
    for (std::size_t i = 0; i < set.plates.size(); ++i)
        for (std::size_t j = i + 1; j < set.plates.size(); ++j) {
            double common = 0;
            for (const auto& a : set.plates[i].cells)
                for (const auto& b : set.plates[j].cells)
                    common += commonVolume(set.plates[i], a, set.plates[j], b);
            EXPECT_LE(common, 1e-6) << what << " " << set.plates[i].name << " " << set.plates[j].name;
        }
}

void tryAll(const Polyhedron& solid, const std::string& what, Random& random) {
    const Body body = bodyOf(solid);
    std::vector<int> ranks, mixed;
    std::vector<double> thick;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i) {
        ranks.push_back(static_cast<int>(i));
        mixed.push_back(pick(random, 0, 2));
        thick.push_back(std::vector<double>{3, 9, 12.7}[static_cast<std::size_t>(pick(random, 0, 2))]);
    }
    for (const auto& t : {std::vector<double>{5}, std::vector<double>{18}, thick})
        for (const auto& r : {std::vector<int>{0}, ranks, mixed})
            expectFilled(body, rulesFor(body, t, r),
                         what + ", " + std::to_string(t.size()) + " thicknesses from " +
                             std::to_string(t.front()) + ", " + std::to_string(r.size()) + " ranks");
}

} // namespace

TEST(ConvexPlates, FillTheShellOfRegularSolids) {
    Random random(seedFor("regular solids", 5));
    for (const int faces : {4, 6, 8, 12, 20})
        tryAll(regularSolid(faces), "solid of " + std::to_string(faces), random);
}

TEST(ConvexPlates, FillTheShellOfFrustums) {
    Random random(seedFor("frustums", 6));
    for (int sides = 3; sides <= 12; ++sides) {
        tryAll(frustum(sides, 300, 200, 250), "frustum " + std::to_string(sides), random);
        tryAll(frustum(sides, 300, 0, 250), "pyramid " + std::to_string(sides), random);
    }
}

namespace {

void tryRandomHulls(Random& random, int rounds) {
    for (int round = 0; round < rounds; ++round) {
        std::vector<Vec3> points;
        for (int i = pick(random, 5, 20); i > 0; --i) {
            Vec3 p(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1));
            points.push_back(p.normalized() * 300);
        }
        tryAll(hullOf(points), "hull " + std::to_string(round), random);
    }
}

} // namespace

TEST(ConvexPlates, FillTheShellOfRandomBodies) {
    Random random(seedFor("random hulls", 7));
    tryRandomHulls(random, 40 / slowdown);
}

TEST(ConvexPlates, FillTheShellOfBodiesNeverSeenBefore) {
    Random random(seedFor("fresh hulls", std::random_device{}()));
    tryRandomHulls(random, 10 / slowdown);
}
