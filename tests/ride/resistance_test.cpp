// Steps and grades against the worked figures and against moments taken anew.
#include "core/ride/resistance.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::ride;

TEST(Resistance, StepsOfTheTable) {
    // F / W for a rigid wheel pushed at the axle (computed worked figures)
    EXPECT_NEAR(stepPush(100, 40).value(), 1.3333, 5e-5);
    EXPECT_NEAR(stepPush(75, 20).value(), 0.9271, 5e-5);
    EXPECT_NEAR(stepPush(63.5, 12.7).value(), 0.75, 1e-12);
    EXPECT_NEAR(stepPush(100, 60).value(), 2.2913, 5e-5);
    EXPECT_EQ(stepPush(60, 60).error().code, "step-too-high");
    EXPECT_EQ(stepPush(60, 90).error().code, "step-too-high");
    // driven wheel of 100 mm on a step of 40 mm: 0.080 m times its load
    EXPECT_NEAR(stepTorque(100, 40, 1).value(), 0.080, 1e-12);
}

TEST(Resistance, PushAndTorqueTurnAboutTheSameEdge) {
    auto random = seeded(50);
    for (int round = 0; round < 500; ++round) {
        const double r = uniform(random, 20, 300), h = uniform(random, 0, 0.99) * r,
                     w = uniform(random, 1, 900);
        const double push = stepPush(r, h).value() * w;
        EXPECT_NEAR(push * (r - h) / 1000, stepTorque(r, h, w).value(), 1e-9 * w * r);
        EXPECT_NEAR(highestStep(r, push / w).value(), h, 1e-9 * r);
    }
}

TEST(Resistance, Grade) {
    // 165 kg on 1:12 with 0.015: 158.6 N (computed worked figure)
    EXPECT_NEAR(gradeForce(165, std::atan(1 / 12.0), 0.015).value(), 158.6, 0.05);
    auto random = seeded(51);
    for (int round = 0; round < 100; ++round) {
        const double s = uniform(random, 0, 0.5), m = uniform(random, 1, 300), c = uniform(random, 0, 0.1);
        // up and down differ by the weight's pull, and together are twice the rolling
        const double up = gradeForce(m, s, c).value(), down = gradeForce(m, -s, c).value();
        EXPECT_NEAR(up - down, 2 * m * 9.80665 * std::sin(s), 1e-9 * m);
        EXPECT_NEAR(up + down, 2 * m * 9.80665 * c * std::cos(s), 1e-9 * m);
    }
}

TEST(Resistance, Refusals) {
    EXPECT_EQ(stepPush(0, 0).error().code, "out-of-range");
    EXPECT_EQ(stepPush(50, -1).error().code, "out-of-range");
    EXPECT_EQ(stepTorque(50, 10, -1).error().code, "out-of-range");
    EXPECT_EQ(stepTorque(50, 50, 1).error().code, "step-too-high");
    EXPECT_EQ(highestStep(-1, 1).error().code, "out-of-range");
    EXPECT_EQ(gradeForce(-1, 0, 0).error().code, "out-of-range");
    EXPECT_EQ(gradeForce(1, 2, 0).error().code, "out-of-range");
}
