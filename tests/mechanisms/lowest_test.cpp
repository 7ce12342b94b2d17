// How low a tube comes, by its closed form: height of the pivot, less a sin w + r cos w for an end a ahead
// that is pitched down by w.
#include "core/mechanisms/lowest.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {

namespace {

Move riseAbout(const Vec3& pivot, double from, double to) {
    Move m;
    m.at = pivot;
    m.axis = -Vec3::UnitY();
    m.from = from;
    m.to = to;
    return m;
}

TEST(LowestOver, ATubeByItsClosedForm) {
    auto random = seeded(61);
    for (int i = 0; i < 200; ++i) {
        const double high = uniform(random, 100, 900), r = uniform(random, 5, 60);
        const double front = uniform(random, 100, 900), rear = uniform(random, 0, 900);
        const double a = uniform(random, -1.5, 1.5), b = uniform(random, -1.5, 1.5);
        Move rise = riseAbout({0, 0, high}, std::min(a, b), std::max(a, b));
        rise.shown = (a + b) / 2;
        // An end at x from the pivot is x sin e above it, its rim r cos e lower: least at one end of the
        // range or where the rim's lowest corner, at atan(r / |x|) from the axis, points straight down.
        double low = 1e9;
        for (const double x : {front, -rear}) {
            const auto rim = [&](double e) { return high + x * std::sin(e) - r * std::cos(e); };
            low = std::min({low, rim(rise.from), rim(rise.to)});
            const double down =
                x > 0 ? -std::numbers::pi / 2 + std::atan2(r, x) : std::numbers::pi / 2 - std::atan2(r, -x);
            if (down > rise.from && down < rise.to) low = std::min(low, rim(down));
        }
        const std::vector<ConvexSolid> tube{makeCylinder({-rear, 0, high}, {front, 0, high}, r)};
        EXPECT_NEAR(lowestOver({"boom", {rise}}, tube).at.z(), low, 1e-6) << i;
        // Turned on an upright axis it comes as low.
        Move turn;
        turn.endless = true;
        turn.axis = Vec3::UnitZ();
        turn.at = {50, 20, 0};
        const LowestPlace turned = lowestOver({"boom", {rise, turn}}, tube);
        EXPECT_NEAR(turned.at.z(), low, 1e-6) << i;
        EXPECT_EQ(turned.values[1], turn.shown);
        EXPECT_EQ(poseAt({"boom", {rise, turn}}, turned.values).shift,
                  poseAt({"boom", {rise}}, {turned.values[0]}).shift);
    }
}

TEST(LowestOver, WhatDoesNotMoveIsAsLowAsItStands) {
    const LowestPlace still = lowestOver({}, {makeBoxSolid({0, 0, 7}, {1, 1, 9})});
    EXPECT_EQ(still.at.z(), 7);
    EXPECT_TRUE(still.values.empty());
}

// A slide that sinks 30 and a pitch: the deepest of both together.
TEST(LowestOver, TwoMovesTogether) {
    Move slide;
    slide.slides = true;
    slide.from = -30;
    slide.to = 10;
    const Motion motion{"float", {riseAbout({0, 0, 100}, -0.1, 0.1), slide}};
    const LowestPlace low = lowestOver(motion, {makeBoxSolid({-500, 0, 100}, {300, 10, 120})});
    EXPECT_NEAR(low.at.z(), 100 - 30 - 500 * std::sin(0.1), 1e-6);
}

} // namespace
} // namespace slab
