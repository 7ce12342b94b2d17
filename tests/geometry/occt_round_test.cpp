// Capsules as OpenCASCADE gets them: by their volume, by points of their surface, by their distance to a
// wall.
#include "core/geometry/occt.h"
#include "core/geometry/polygon.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {

namespace {

ConvexSolid capsuleBetween(const Vec3& a, const Vec3& b, double radius) {
    return {ConvexSolid::Kind::hull, {a, b}, radius};
}

} // namespace

TEST(OcctCapsule, IsWholeWhereverItLies) {
    auto random = seeded(23);
    const auto any = [&](double most) {
        return Vec3(uniform(random, -most, most), uniform(random, -most, most), uniform(random, -most, most));
    };
    for (int round = 0; round < 80; ++round) {
        const Vec3 a = any(1000);
        Vec3 way = any(300);
        if (round % 8 == 0) way = Vec3::Unit(round / 8 % 3) * 200; // along an axis
        const double r = uniform(random, 5, 120), length = way.norm();
        const occt::Built built(capsuleBetween(a, a + way, r));
        const occt::Built around(
            makeBoxSolid((a + way / 2) - Vec3::Constant(1000), (a + way / 2) + Vec3::Constant(1000)));
        const auto volume = occt::commonVolume(around, built);
        ASSERT_TRUE(volume) << volume.error().message;
        const double whole = std::numbers::pi * r * r * (length + 4 * r / 3);
        EXPECT_NEAR(*volume, whole, 1e-6 * whole) << round;
        for (int k = 0; k < 20; ++k) {
            const Vec3 out = any(1).normalized();
            const Vec3 end = out.dot(way) > 0 ? Vec3(a + way) : a; // where it is farthest that way
            EXPECT_EQ(occt::holds(built, end + (r - 1e-3) * out, 1e-6), true) << round;
            EXPECT_EQ(occt::holds(built, end + (r + 1e-3) * out, 1e-6), false) << round;
        }
    }
}

// Heads are flat rings grown all round: 2 r A + π r² P / 2 + 4/3 π r³ (Steiner's formula).
TEST(OcctGrownRing, IsWholeWhateverItsCorners) {
    auto random = seeded(29);
    for (int round = 0; round < 60; ++round) {
        const double r = uniform(random, 20, 120);
        std::vector<Vec2> flat;
        if (round % 3 == 0) { // a rider's head
            const double x = uniform(random, 5, 60), z = uniform(random, 5, 90);
            flat = {{-x, -z}, {x, -z}, {x, z}, {-x, z}};
        } else
            for (int k = 0; k < 3 + round % 5; ++k)
                flat.emplace_back(uniform(random, -90, 90), uniform(random, -90, 90));
        const Ring ring = convexHull(flat);
        const Mat3 axes =
            round % 2 == 0
                ? Mat3((Mat3() << Vec3::UnitX(), Vec3::UnitZ(), -Vec3::UnitY()).finished())
                : Eigen::AngleAxisd(uniform(random, 0, 3),
                                    Vec3(uniform(random, -1, 1), uniform(random, -1, 1), 1).normalized())
                      .toRotationMatrix();
        const Vec3 at(uniform(random, -500, 500), uniform(random, -500, 500), uniform(random, 0, 900));
        ConvexSolid solid{ConvexSolid::Kind::hull, {}, r};
        double around = 0;
        for (std::size_t k = 0; k < ring.size(); ++k) {
            solid.points.push_back(at + axes * Vec3(ring[k].x(), ring[k].y(), 0));
            around += (ring[(k + 1) % ring.size()] - ring[k]).norm();
        }
        const occt::Built built(solid);
        const occt::Built box(makeBoxSolid(at - Vec3::Constant(1000), at + Vec3::Constant(1000)));
        const auto volume = occt::commonVolume(box, built);
        ASSERT_TRUE(volume) << round << " " << volume.error().message;
        const double whole = 2 * r * signedArea(ring) + std::numbers::pi * r * r * (around / 2 + 4 * r / 3);
        EXPECT_NEAR(*volume, whole, 1e-6 * whole) << round;
        for (int k = 0; k < 10; ++k) {
            const Vec3 out =
                Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)).normalized();
            Vec3 end = solid.points.front(); // where it is farthest that way
            for (const Vec3& p : solid.points)
                if (out.dot(p) > out.dot(end)) end = p;
            EXPECT_EQ(occt::holds(built, end + (r - 1e-3) * out, 1e-6), true) << round;
            EXPECT_EQ(occt::holds(built, end + (r + 1e-3) * out, 1e-6), false) << round;
        }
    }
}

} // namespace slab
