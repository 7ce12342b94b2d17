#include "core/geometry/convex.h"
#include "core/geometry/convex_hull.h"
#include "tests/geometry/convex_cases.h"
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

constexpr double pi = std::numbers::pi;

TEST(ConvexBounds, RoundAndTiltedSolids) {
    const Box3 capsule = bounds(makeCapsule({0, 0, 0}, {100, 0, 0}, 10));
    EXPECT_EQ(capsule.min, Vec3(-10, -10, -10));
    EXPECT_EQ(capsule.max, Vec3(110, 10, 10));
    const Box3 upright = bounds(makeCylinder({1, 2, 3}, {1, 2, 13}, 5));
    EXPECT_NEAR((upright.min - Vec3(-4, -3, 3)).norm(), 0, 1e-12);
    // A disc whose axis leans 30° from z spreads r cos 30° along x and r sin 30° along z.
    const Vec3 axis(0.5, 0, std::sqrt(3.0) / 2);
    const Box3 leaning = bounds(makeCylinder(Vec3::Zero(), 100 * axis, 10));
    EXPECT_NEAR(leaning.min.x(), -10 * std::cos(pi / 6), 1e-12);
    EXPECT_NEAR(leaning.min.z(), -10 * std::sin(pi / 6), 1e-12);
    EXPECT_NEAR(leaning.max.x(), 50 + 10 * std::cos(pi / 6), 1e-12);
}

TEST(ConvexBounds, HoldEverySupportOfRandomSolids) {
    auto random = seeded(2);
    for (int i = 0; i < 300; ++i) {
        const ConvexSolid s = randomSolid(random, i % 4);
        const Box3 box = bounds(s);
        for (int axis = 0; axis < 3; ++axis) {
            const Vec3 e = Vec3::Unit(axis);
            EXPECT_NEAR(box.max[axis], supportOf(s, e), 1e-9);
            EXPECT_NEAR(box.min[axis], -supportOf(s, -e), 1e-9);
        }
        const Vec3 by(1, -2, 3);
        EXPECT_NEAR((bounds(translated(s, by)).min - box.min - by).norm(), 0, 1e-9);
    }
}

TEST(ConvexPictures, AreClosedAndApproachTheTrueVolume) {
    const double r = 50, l = 120;
    const auto capsule = toPolyhedron(makeCapsule({0, 0, 0}, {l, 0, 0}, r), 48);
    ASSERT_TRUE(checkClosed(capsule, 1e-6));
    const double exact = pi * r * r * l + 4.0 / 3 * pi * r * r * r;
    EXPECT_LT(volume(capsule), exact);
    EXPECT_GT(volume(capsule), 0.98 * exact);
    const auto cylinder = toPolyhedron(makeCylinder({0, 0, 0}, {0, 30, 40}, r), 64);
    ASSERT_TRUE(checkClosed(cylinder, 1e-6));
    // A regular 64-gon holds sin(2π/64) / (2π/64) of its circle.
    EXPECT_NEAR(volume(cylinder) / (pi * r * r * 50), std::sin(2 * pi / 64) / (2 * pi / 64), 1e-9);
    const auto box = toPolyhedron(makeBoxSolid({0, 0, 0}, {1, 2, 3}));
    ASSERT_TRUE(checkClosed(box));
    EXPECT_EQ(box.faces.size(), 6U);
    EXPECT_NEAR(volume(box), 6, 1e-12);
    ConvexSolid rounded{ConvexSolid::Kind::hull, {{0, 0, 0}, {80, 0, 0}, {0, 0, 60}, {80, 0, 60}}, 40};
    const auto head = toPolyhedron(rounded, 48);
    ASSERT_TRUE(checkClosed(head, 1e-6));
    // Steiner: plate of area A and perimeter P grown by r: 2 A r + π r² P / 2 + 4/3 π r³.
    const double grown = 2 * 4800 * 40.0 + pi * 1600 * 280 / 2 + 4.0 / 3 * pi * 64000;
    EXPECT_LT(volume(head), grown);
    EXPECT_GT(volume(head), 0.98 * grown);
}

TEST(ConvexHull3, RegularSolidsHaveTheirFacesAndVolumes) {
    // Euler: cube 6 faces of 4, octahedron 8 of 3, dodecahedron 12 of 5, icosahedron 20 of 3 (edge a = 2 or
    // by φ).
    const double phi = std::numbers::phi;
    std::vector<Vec3> cube, octa, dodeca, icosa;
    for (const double x : {-1.0, 1.0}) {
        for (int axis = 0; axis < 3; ++axis) octa.push_back(x * Vec3::Unit(axis));
        for (const double y : {-1.0, 1.0}) {
            for (const double z : {-1.0, 1.0}) cube.emplace_back(x, y, z);
            dodeca.insert(dodeca.end(),
                          {{0, x / phi, y * phi}, {x / phi, y * phi, 0}, {y * phi, 0, x / phi}});
            icosa.insert(icosa.end(), {{0, x, y * phi}, {x, y * phi, 0}, {y * phi, 0, x}});
        }
    }
    dodeca.insert(dodeca.end(), cube.begin(), cube.end());
    struct Row {
        std::vector<Vec3> points;
        std::size_t faces, corners;
        double volume;
    };
    const double a5 = 2 / phi; // dodecahedron's edge
    for (const Row& row : {Row{cube, 6, 4, 8}, Row{octa, 8, 3, 4.0 / 3},
                           Row{dodeca, 12, 5, (15 + 7 * std::sqrt(5.0)) / 4 * a5 * a5 * a5},
                           Row{icosa, 20, 3, 5 * (3 + std::sqrt(5.0)) / 12 * 8}}) {
        const Polyhedron hull = convexHull3(row.points);
        EXPECT_EQ(hull.faces.size(), row.faces);
        for (const PolyFace& f : hull.faces) EXPECT_EQ(f.loops[0].size(), row.corners);
        EXPECT_TRUE(checkClosed(hull, 1e-9));
        EXPECT_NEAR(volume(hull), row.volume, 1e-12 * row.volume);
    }
}

TEST(ConvexHull3, HoldsItsPointsAndDropsTheInner) {
    auto random = seeded(4);
    for (int round = 0; round < 400 / slowdown; ++round) {
        std::vector<Vec3> points;
        const int n = 4 + below(random, 24);
        for (int i = 0; i < n; ++i) points.push_back(randomPoint(random, 500));
        // Doubled, middle and inner points change nothing.
        points.push_back(points[0]);
        points.push_back((points[0] + points[1]) / 2);
        points.push_back((points[0] + points[1] + points[2] + points[3]) / 4);
        const Polyhedron hull = convexHull3(points);
        ASSERT_TRUE(checkClosed(hull, 1e-6)) << "round " << round;
        EXPECT_GT(volume(hull), 0);
        for (const PolyFace& f : hull.faces)
            for (const Vec3& p : points) EXPECT_LE(f.plane.distance(p), 1e-7) << "round " << round;
    }
}

TEST(ConvexHull3, FlatAndStraightSets) {
    const Polyhedron flat = convexHull3({{0, 0, 5}, {10, 0, 5}, {10, 10, 5}, {0, 10, 5}, {5, 5, 5}});
    ASSERT_EQ(flat.faces.size(), 2U);
    EXPECT_NEAR(flat.faces[0].plane.normal.dot(flat.faces[1].plane.normal), -1, 1e-12);
    EXPECT_EQ(flat.vertices.size(), 4U);
    EXPECT_TRUE(convexHull3({{0, 0, 0}, {1, 1, 1}, {3, 3, 3}}).faces.empty());
    EXPECT_TRUE(convexHull3({{0, 0, 0}, {0, 0, 1}, {0, 0, 3}}).faces.empty());
    EXPECT_TRUE(convexHull3({}).faces.empty());
}

TEST(CommonPart, BoxesAndSharedFaces) {
    const auto box = [](const Vec3& a, const Vec3& b) { return convexHull3(makeBoxSolid(a, b).points); };
    const Polyhedron a = box({0, 0, 0}, {10, 20, 30});
    EXPECT_NEAR(commonPart(a, a).volume, 6000, 1e-9);
    EXPECT_NEAR(commonPart(a, box({0, 0, 0}, {10, 20, 40})).volume, 6000, 1e-9);
    EXPECT_NEAR(commonPart(a, box({5, 5, 5}, {50, 50, 50})).volume, 5.0 * 15 * 25, 1e-9);
    EXPECT_NEAR(commonPart(a, box({2, 2, 2}, {4, 4, 4})).volume, 8, 1e-9);
    EXPECT_NEAR((commonPart(a, box({2, 2, 2}, {4, 4, 4})).centroid - Vec3(3, 3, 3)).norm(), 0, 1e-9);
    EXPECT_EQ(commonPart(a, box({10, 0, 0}, {20, 20, 30})).volume, 0);
    EXPECT_EQ(commonPart(a, box({11, 0, 0}, {20, 20, 30})).volume, 0);
    EXPECT_EQ(commonPart(a, {}).volume, 0);
}

TEST(CommonPart, CutsAHullInTwoThatAddUp) {
    auto random = seeded(6);
    for (int round = 0; round < 300 / slowdown; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < 12; ++i) points.push_back(randomPoint(random, 100));
        const Polyhedron hull = convexHull3(points);
        const double cut = uniform(random, -60, 60);
        const auto left = convexHull3(makeBoxSolid({-200, -200, -200}, {cut, 200, 200}).points);
        const auto right = convexHull3(makeBoxSolid({cut, -200, -200}, {200, 200, 200}).points);
        const CommonPart l = commonPart(hull, left), r = commonPart(right, hull);
        EXPECT_NEAR(l.volume + r.volume, volume(hull), 1e-9 * volume(hull)) << "round " << round;
        if (l.volume > 1) {
            EXPECT_LE(l.centroid.x(), cut + 1e-9);
        }
    }
}

} // namespace
} // namespace slab
