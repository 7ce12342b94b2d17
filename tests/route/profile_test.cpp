// A wheel on a line of points, against steps, slopes and circles laid point by point.
#include "core/route/profile.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::route;

namespace {

/// Ground of any kind with slopes up to 45° and some upright steps.
GroundProfile roughGround(std::mt19937_64& random) {
    std::vector<Stretch> way;
    for (int i = 0, n = 3 + below(random, 8); i < n; ++i) {
        if (below(random, 4) == 0) way.push_back({0, uniform(random, -60, 60)});
        const double run = uniform(random, 10, 400);
        way.push_back({run, run * uniform(random, -1, 1)});
    }
    return profileOf(way).value();
}

/// Least distance from a point to the ground's line.
double toGround(const GroundProfile& ground, const Vec2& p) {
    double least = 1e9;
    for (std::size_t i = 0; i + 1 < ground.points.size(); ++i) {
        const Vec2 a = ground.points[i], d = ground.points[i + 1] - a;
        const double t = std::clamp((p - a).dot(d) / d.squaredNorm(), 0.0, 1.0);
        least = std::min(least, (a + t * d - p).norm());
    }
    return least;
}

} // namespace

TEST(Wheel, TouchesTheGroundAndIsNotInIt) {
    auto random = seeded(71);
    for (int round = 0; round < 400 / slowdown; ++round) {
        const GroundProfile ground = roughGround(random);
        const double radius = uniform(random, 5, 200), end = ground.points.back().x() - 500;
        for (int k = 0; k < 20; ++k) {
            const double x = uniform(random, -500, end);
            const WheelTouch touch = wheelOn(ground, radius, x);
            const Vec2 centre(x, touch.height);
            EXPECT_NEAR(toGround(ground, centre), radius, 1e-9);
            EXPECT_NEAR((touch.contact - centre).norm(), radius, 1e-9);
            EXPECT_NEAR(toGround(ground, touch.contact), 0, 1e-9);
            EXPECT_NEAR(touch.contact.x(), x + radius * std::sin(touch.lean), 1e-9);
            EXPECT_GT(touch.height, groundAt(ground, x)); // above it, not under
            EXPECT_EQ(wheelOn(ground, 0, x).height, groundAt(ground, x));
        }
    }
}

TEST(Wheel, OnASlope) {
    // tangent: centre r / cos above the line
    const GroundProfile ground = slopeBreak(1 / 12.0, 1 / 12.0).value();
    for (double x : {-5000.0, -3.0, 0.0, 700.0, 9000.0}) {
        const WheelTouch touch = wheelOn(ground, 100, x);
        EXPECT_NEAR(touch.height, x / 12 + 100 / std::cos(std::atan(1 / 12.0)), 1e-9);
        EXPECT_NEAR(touch.lean, std::atan(1 / 12.0), 1e-12);
    }
}

TEST(Wheel, StepsOfTheTable) {
    // F / W = √(2 r h − h²) / (r − h): r 100 h 40 1.3333; r 75 h 20 0.9271; r 63.5 h 12.7 0.75; r 100 h
    // 60 2.2913; h ≥ r impossible (computed worked figures)
    struct Row {
        double r, h, push;
    };
    for (const Row& row :
         {Row{100, 40, 1.3333}, Row{75, 20, 0.9271}, Row{63.5, 12.7, 0.75}, Row{100, 60, 2.2913}}) {
        const GroundProfile kerb = profileOf({{0, row.h}}).value();
        const auto climb = hardestClimb(kerb, row.r);
        ASSERT_TRUE(climb);
        EXPECT_FALSE(climb->blocked);
        EXPECT_NEAR(std::tan(climb->lean), row.push, 5e-5);
        EXPECT_EQ(climb->at, Vec2(0, row.h));
        EXPECT_EQ(hardestClimb(turnedRound(kerb), row.r)->lean, 0); // down it goes by itself
    }
    for (double h : {60.0, 60.5, 200.0}) EXPECT_TRUE(hardestClimb(profileOf({{0, h}}).value(), 60)->blocked);
    EXPECT_FALSE(hardestClimb(profileOf({{0, 59.9}}).value(), 60)->blocked);
    // two steps of 40 at a wheel of 100, the second within its reach: still no more than one of 80
    const double two = hardestClimb(profileOf({{0, 40}, {50, 0}, {0, 40}}).value(), 100)->lean;
    EXPECT_GT(two, hardestClimb(profileOf({{0, 40}}).value(), 100)->lean);
    EXPECT_LT(two, hardestClimb(profileOf({{0, 80}}).value(), 100)->lean);
}

TEST(Wheel, HardestClimbIsTheGreatestLeanOnTheWay) {
    auto random = seeded(72);
    int blocked = 0;
    for (int round = 0; round < 100; ++round) {
        const GroundProfile ground = roughGround(random);
        const double radius = uniform(random, 20, 200), end = ground.points.back().x();
        const auto climb = hardestClimb(ground, radius);
        ASSERT_TRUE(climb);
        if (climb->blocked) {
            ++blocked;
            // just before the step its corner is no lower than the wheel's centre
            EXPECT_GE(climb->at.y(),
                      wheelOn(ground, radius, climb->at.x() - radius * (1 + 1e-9)).height - 1e-6);
            continue;
        }
        double most = 0;
        for (double x = -600; x < end; x += 0.25) most = std::max(most, wheelOn(ground, radius, x).lean);
        EXPECT_LE(most, climb->lean + 1e-9);
        EXPECT_GE(most, climb->lean - 0.1); // the lean falls fast behind a corner
    }
    EXPECT_GT(blocked, 0);
}

TEST(Profiles, AsTheyAreCalled) {
    const GroundProfile ramp = kerbRamp(1 / 20.0, 1 / 12.0, 152.4).value();
    EXPECT_NEAR(groundAt(ramp, -500), 25, 1e-9);
    EXPECT_NEAR(groundAt(ramp, 12 * 100), 100, 1e-9);
    EXPECT_NEAR(groundAt(ramp, 12 * 152.4 + 5000), 152.4, 1e-9);
    // 303: 1/4 in upright, to 1/2 in bevelled 1:2 → 12.7 long
    const GroundProfile sill = threshold(12.7, 6.35, 0.5, 100).value();
    EXPECT_NEAR(groundAt(sill, 0), 6.35, 1e-9);
    EXPECT_NEAR(groundAt(sill, 12.7), 12.7, 1e-9);
    EXPECT_NEAR(groundAt(sill, 12.7 + 100 + 6.35), 12.7 - 3.175, 1e-9);
    EXPECT_NEAR(groundAt(sill, 125.4), 6.35, 1e-9);
    EXPECT_NEAR(groundAt(sill, 125.41), 0, 1e-9);
    // chord 400, sagitta 50: radius 425 (c²/8s + s/2)
    const GroundProfile bump = hump(400, 50).value();
    EXPECT_NEAR(groundAt(bump, 200), 50, 0.011);
    for (const Vec2& p : bump.points)
        EXPECT_NEAR(p.y() > 0 ? (p - Vec2(200, 50 - 425)).norm() : 425, 425, 1e-9);
    for (double x = 0; x <= 400; x += 3) {
        const double arc = std::sqrt(425 * 425 - (x - 200) * (x - 200)) - 375;
        EXPECT_NEAR(groundAt(bump, x), arc, 0.013);
        EXPECT_LE(groundAt(bump, x), arc + 1e-9);
    }
    const GroundProfile back = turnedRound(ramp);
    EXPECT_TRUE(checkProfile(back));
    EXPECT_NEAR(groundAt(back, 500), 25, 1e-9);
}

TEST(Profiles, Refusals) {
    EXPECT_EQ(checkProfile({}).error().code, "profile-short");
    EXPECT_EQ(checkProfile({{{0, 0}, {-1, 0}}}).error().code, "profile-order");
    EXPECT_EQ(checkProfile({{{0, 0}, {0, 5}, {9, 5}}}).error().code, "profile-order");
    EXPECT_EQ(checkProfile({{{0, 0}, {1, 0}, {1, 0}, {2, 0}}}).error().code, "profile-order");
    EXPECT_EQ(checkProfile({{{0, 0}, {1, NAN}}}).error().code, "out-of-range");
    EXPECT_EQ(profileOf({{-1, 0}}).error().code, "out-of-range");
    EXPECT_EQ(profileOf({{0, 0}}).error().code, "profile-order");
    EXPECT_EQ(slopeBreak(0, INFINITY).error().code, "out-of-range");
    EXPECT_EQ(kerbRamp(-0.1, 0.1, 100).error().code, "out-of-range");
    EXPECT_EQ(threshold(10, 11, 0.5, 50).error().code, "out-of-range");
    EXPECT_EQ(hump(100, 51).error().code, "out-of-range");
    EXPECT_EQ(hardestClimb(slopeBreak(0, 0.1).value(), 0).error().code, "out-of-range");
    EXPECT_EQ(hardestClimb({}, 10).error().code, "profile-short");
}
