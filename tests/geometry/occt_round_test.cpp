// Capsules as OpenCASCADE gets them: by their volume, by points of their surface, by their distance to a
// wall.
#include "core/geometry/occt.h"
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

} // namespace slab
