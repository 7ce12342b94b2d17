// The T against closed forms of a rectangle, and against points tried one by one.
#include "core/route/tee.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <random>

using namespace slab;
using namespace slab::route;

namespace {

constexpr double inch = 25.4;

/// Width of stem and arms alike that a rectangle at a heading needs: pushed against the far wall, its rear
/// end is as wide in the stem as the stem is; worked out from the triangle that sticks into it.
double neededAt(double longSide, double wide, double heading) {
    const double s = std::sin(heading), c = std::cos(heading);
    const double deep = (longSide * c + wide * s) / (1 + s * c); // only a corner is in the stem
    return deep > longSide * c * (1 + 1e-12) ? deep : (longSide * s * c + wide) / (s + c);
}

double marginOf(double longSide, double wide, double stem, double arms) {
    const auto footprint = rectangleFootprint(-longSide / 2, longSide / 2, wide / 2);
    EXPECT_TRUE(footprint);
    const auto pass = carryIntoArm(*footprint, {stem, arms}, 0.001);
    EXPECT_TRUE(pass);
    return pass ? pass->margin : NAN;
}

} // namespace

TEST(Tee, RectanglesNeedWhatTheClosedFormSays) {
    for (const auto& [length, wide] : {std::pair(44.0, 40.0), std::pair(48.0, 30.0), std::pair(60.0, 25.0)}) {
        double most = 0;
        for (int i = 0; i <= 20000; ++i)
            most = std::max(most, neededAt(length, wide, i / 20000.0 * std::numbers::pi / 2));
        if (length < 2 * wide) { // the greatest is √(length · width) then
            EXPECT_NEAR(most, std::sqrt(length * wide), 1e-3);
        }
        for (const double width : {42.5, 38.0, 30.0})
            EXPECT_NEAR(marginOf(length * inch, wide * inch, width * inch, width * inch),
                        std::min(width - most, width - wide) * inch, 0.01)
                << length << " x " << wide << " in " << width;
    }
}

TEST(Tee, NeverNeedsMoreThanTheCorner) {
    std::mt19937_64 random(20261128);
    std::uniform_real_distribution<double> size(300, 1400), width(500, 1600);
    for (int i = 0; i < 60; ++i) {
        const auto footprint = rectangleFootprint(-size(random), size(random), size(random) / 2);
        ASSERT_TRUE(footprint);
        const double in = width(random), on = width(random);
        const auto tee = carryIntoArm(*footprint, {in, on}, 0.05);
        const auto corner = carryRound(*footprint, {in, on, std::numbers::pi / 2}, 0.05);
        ASSERT_TRUE(tee && corner);
        EXPECT_GE(tee->margin, corner->margin - 0.1) << "seed 20261128, " << i;
    }
}

TEST(Tee, StandsClearAtItsTightest) { // every corner is where the T is free, to the margin that is told
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> size(300, 900);
    for (int i = 0; i < 40; ++i) {
        std::vector<Vec2> points;
        for (int k = 0; k < 9; ++k) points.emplace_back(size(random) - 600, size(random) - 600);
        const auto footprint = footprintOf(points);
        ASSERT_TRUE(footprint);
        const Tee tee{700, 650};
        const auto pass = carryIntoArm(*footprint, tee, 0.01);
        ASSERT_TRUE(pass);
        const Eigen::Rotation2Dd turn(pass->heading);
        for (const Vec2& v : footprint->outline) { // from the inner edge: x ahead, y to port
            const Vec2 p = turn * Vec2(v - pass->at);
            const double room = -0.05 + std::min(pass->margin, 0.0);
            EXPECT_LE(p.x(), tee.arms - room) << "seed 7, " << i;
            if (p.x() < 0) {
                EXPECT_LE(p.y(), -room) << "seed 7, " << i;
                EXPECT_GE(p.y(), -tee.stem + room) << "seed 7, " << i;
            }
        }
    }
}

TEST(Tee, RefusesNoWidth) {
    const auto footprint = rectangleFootprint(-1, 1, 1);
    EXPECT_FALSE(carryIntoArm(*footprint, {0, 1}));
    EXPECT_FALSE(carryIntoArm(*footprint, {1, NAN}));
    EXPECT_FALSE(carryIntoArm(*footprint, {1, 1}, 0));
}
