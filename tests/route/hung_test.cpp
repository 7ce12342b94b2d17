// A body that hangs on a pin and rolls on one axle, against triangles.
#include "core/route/hung.h"
#include <cmath>
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::route;

namespace {

/// Donor on points 22 in apart, pin midway on the ground's line, body's wheel 20 in behind the rear one.
Linked trailing(double radius = 0) {
    constexpr double in = 25.4;
    return {SideView{{{0, radius}, {22 * in, radius}}, {11 * in, 300}, {}},
            SideView{{{-20 * in, radius}}, {0, 300}, {{{-25 * in, 60}, {0, 60}}}},
            {11 * in, 0}};
}

} // namespace

TEST(Hung, PitchAtTheFootOfARamp) {
    // With the donor's rear wheel at the foot of a ramp of θ its pin stands 11 in up it, and the body's wheel
    // 31 in behind the pin on the level: sin φ = 11/31 sin θ (a triangle).
    for (const double slope : {1 / 20.0, 1 / 12.0, 1 / 8.0}) {
        const double theta = std::atan(slope);
        const auto got = driveHung(slopeBreak(0, slope).value(), trailing(), -3000, 3000, 1e-3);
        ASSERT_TRUE(got) << got.error().message;
        EXPECT_NEAR(got->noseDown.value, std::asin(11 / 31.0 * std::sin(theta)) - theta, 2e-6);
        EXPECT_NEAR(got->noseDown.x, 0, 1);
        EXPECT_NEAR(got->noseUp.value, 0, 1e-9);
        // over the crest it is the other way round
        const auto crest = driveHung(slopeBreak(0, -slope).value(), trailing(), -3000, 3000, 1e-3);
        ASSERT_TRUE(crest);
        EXPECT_NEAR(crest->noseUp.value, theta - std::asin(11 / 31.0 * std::sin(theta)), 2e-6);
        const auto quick = quickHung(slopeBreak(0, slope).value(), trailing(), -3000, 3000);
        ASSERT_TRUE(quick);
        EXPECT_NEAR(quick->noseDown.value, got->noseDown.value, 0.006);
    }
}

TEST(Hung, TouchesWhereItsWheelHasNotRisenYet) {
    // Its skirt ends 5 in behind its wheel, 60 mm up: on level ground that is what is left, and before a ramp
    // it tips towards it by 5 in · sin φ at most.
    const auto level = driveHung(slopeBreak(0, 1e-9).value(), trailing(), -3000, 3000);
    ASSERT_TRUE(level);
    EXPECT_NEAR(level->clearance.height, 60, 1e-3);
    const auto ramp = driveHung(slopeBreak(0, 1 / 8.0).value(), trailing(), -3000, 3000);
    ASSERT_TRUE(ramp);
    const double theta = std::atan(1 / 8.0), phi = theta; // its wheel at the foot, its pin on the ramp
    EXPECT_NEAR(ramp->clearance.height, 60 * std::cos(phi) - 5 * 25.4 * std::sin(phi), 0.05);
    EXPECT_EQ(ramp->poses.size(), 65u);
}

TEST(Hung, Refusals) {
    const GroundProfile ground = slopeBreak(0, 0.1).value();
    Linked bad = trailing();
    bad.body.axles.push_back({500, 50});
    EXPECT_EQ(driveHung(ground, bad, 0, 1).error().code, "axles-few");
    bad = trailing();
    bad.body.axles[0].x = bad.link.x() + 5;
    EXPECT_EQ(quickHung(ground, bad, 0, 1).error().code, "axle-under-link");
    bad = trailing();
    bad.link.y() = NAN;
    EXPECT_EQ(driveHung(ground, bad, 0, 1).error().code, "out-of-range");
    EXPECT_EQ(quickHung(ground, trailing(), 0, 1, 0).error().code, "out-of-range");
}
