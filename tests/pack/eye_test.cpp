#include "core/pack/eye.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

double leastShown(const Eye& eye, const std::vector<Vec3>& normals) {
    double least = 1;
    for (const Vec3& n : normals) least = std::min(least, std::abs(n.dot(eye.to)));
    return least;
}
Vec3 turned(double degrees) {
    const double a = degrees * std::numbers::pi / 180;
    return {std::cos(a), std::sin(a), 0};
}

TEST(Eye, LooksFromThePortBowWhereNothingSpeaksAgainstIt) {
    const Eye eye = eyeFor({Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()});
    EXPECT_NEAR(eye.to.x(), eye.to.y(), 1e-12);
    EXPECT_GT(eye.to.z(), 0);
    EXPECT_LT(eye.seen(Vec3::UnitX()).x(), 0) << "the front is at the left";
    EXPECT_LT(eye.seen(Vec3::UnitX()).y(), 0) << "and below";
    EXPECT_GT(eye.seen(Vec3::UnitY()).x(), 0);
    EXPECT_GT(eye.seen(Vec3::UnitZ()).y(), 0);
    EXPECT_NEAR(eye.seen(Vec3::UnitZ()).x(), 0, 1e-12) << "plumb stays plumb";
}

TEST(Eye, SeesNoBoardEdgeOn) {
    // Boards across the corner: edge-on from the port bow itself.
    for (const double degrees : {-45.0, 135.0, -40.0, -50.0}) {
        const std::vector<Vec3> normals{Vec3::UnitX(), Vec3::UnitY(), turned(degrees)};
        const Eye eye = eyeFor(normals);
        EXPECT_GT(leastShown(eye, normals), 0.2) << degrees;
        EXPECT_LT(eye.seen(Vec3::UnitX()).x(), 0);
        EXPECT_LT(eye.seen(Vec3::UnitX()).y(), 0);
    }
}

TEST(Eye, IsTheBestOfRandomViewsForRandomBoards) {
    auto random = seeded(31);
    for (int round = 0; round < 50; ++round) {
        std::vector<Vec3> normals;
        for (int i = 0; i < 3; ++i)
            normals.push_back(
                Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)).normalized());
        const double own = leastShown(eyeFor(normals), normals);
        for (int k = 0; k < 50; ++k) {
            const double across = uniform(random, 20, 70) * std::numbers::pi / 180,
                         height = uniform(random, 20, 50) * std::numbers::pi / 180;
            Eye other;
            other.to = {std::cos(height) * std::cos(across), std::cos(height) * std::sin(across),
                        std::sin(height)};
            // As fine as its steps of 2.5 degrees.
            EXPECT_GT(own, std::min(0.25, leastShown(other, normals)) - 0.05);
        }
    }
}

} // namespace
} // namespace slab
