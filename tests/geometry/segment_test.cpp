// Nearest points of stretches: by hand, and against sampled points.
#include "core/geometry/segment.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

TEST(NearestOnSegment, ByHand) {
    const Vec2 a(0, 0), b(10, 0);
    EXPECT_EQ(nearestOnSegment(Vec2(3, 4), a, b), Vec2(3, 0));
    EXPECT_EQ(nearestOnSegment(Vec2(-3, 4), a, b), a); // 3-4-5
    EXPECT_EQ(toSegment(Vec2(-3, 4), a, b), 5);
    EXPECT_EQ(nearestOnSegment(Vec2(14, 3), a, b), b);
    EXPECT_EQ(toSegment(Vec2(14, 3), a, b), 5);
    EXPECT_EQ(nearestOnSegment(Vec2(3, 4), a, a), a) << "no length";
}

TEST(NearestOnSegment, NoSampledPointIsNearer) {
    auto random = seeded(71);
    const auto point = [&] {
        return Vec3(uniform(random, -100, 100), uniform(random, -100, 100), uniform(random, -100, 100));
    };
    for (int i = 0; i < 500; ++i) {
        const Vec3 a = point(), b = point(), p = point(), on = nearestOnSegment(p, a, b);
        EXPECT_NEAR((on - a).norm() + (b - on).norm(), (b - a).norm(), 1e-9) << i;
        for (int k = 0; k <= 50; ++k)
            EXPECT_LE((on - p).norm(), (a + (b - a) * k / 50 - p).norm() + 1e-9) << i;
    }
}

} // namespace
} // namespace slab
