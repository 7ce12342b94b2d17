#include "tests/geometry/seed.h"
#include "ui/board/rule_ticks.h"
#include "ui/session/session.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

const RuleTick* tickAt(const std::vector<RuleTick>& ticks, double mm) {
    for (const RuleTick& tick : ticks)
        if (std::abs(tick.at - mm) < 1e-6) return &tick;
    return nullptr;
}

// A carpenter's rule: the marks of the inch go by halves down to the sixteenth, the longer the coarser
// (common practice).
TEST(RuleTicks, InchesGoByHalves) {
    const auto ticks = ruleTicks(0, 25.4 * 2, 4.0, styleFor("in"));
    ASSERT_EQ(ticks.size(), 33U) << "sixteenths of two inches, both ends";
    const auto rank = [&](double inches) { return tickAt(ticks, inches * 25.4)->rank; };
    EXPECT_LT(rank(1.0 / 16), rank(1.0 / 8));
    EXPECT_LT(rank(1.0 / 8), rank(1.0 / 4));
    EXPECT_LT(rank(1.0 / 4), rank(1.0 / 2));
    EXPECT_LT(rank(1.0 / 2), rank(1.0));
    EXPECT_NE(tickAt(ticks, 25.4)->words, "");
}

TEST(RuleTicks, MillimetresGoByDecades) {
    const auto ticks = ruleTicks(-100, 100, 1.2, styleFor("mm"));
    ASSERT_TRUE(tickAt(ticks, 50));
    EXPECT_EQ(tickAt(ticks, 1), nullptr) << "1.2 px apart would be a smear";
    EXPECT_LT(tickAt(ticks, 5)->rank, tickAt(ticks, 10)->rank);
    EXPECT_LT(tickAt(ticks, 10)->rank, tickAt(ticks, 50)->rank);
    EXPECT_LT(tickAt(ticks, 50)->rank, tickAt(ticks, 100)->rank);
    EXPECT_EQ(tickAt(ticks, 100)->words, "100") << "the unit is said once, where the rulers meet";
}

TEST(RuleTicks, KeepTheirDistanceAtEveryZoom) {
    auto random = seeded(31);
    for (int i = 0; i < 300; ++i) {
        const double scale = std::pow(10.0, uniform(random, -2.6, 1.7));
        const double from = uniform(random, -9000, 9000), to = from + 1600 / scale;
        const UnitStyle units = styleFor(i % 2 ? "ft" : "mm");
        const auto ticks = ruleTicks(from, to, scale, units);
        double last = -1e300;
        for (std::size_t k = 0; k + 1 < ticks.size(); ++k)
            ASSERT_GE((ticks[k + 1].at - ticks[k].at) * scale, 4.99) << "scale " << scale;
        for (const RuleTick& tick : ticks) {
            ASSERT_GE(tick.at, from - 1e-6);
            ASSERT_LE(tick.at, to + 1e-6);
            if (tick.words.empty()) continue;
            ASSERT_GE((tick.at - last) * scale, 61.9) << "figures run into each other at scale " << scale;
            last = tick.at;
        }
    }
}

TEST(RuleTicks, AShortRuleHasTwoFiguresAtEveryZoom) {
    auto random = seeded(7);
    for (int i = 0; i < 400; ++i) {
        const double scale = std::pow(10.0, uniform(random, -2.4, 1));
        const UnitStyle units = styleFor(i % 2 ? "ft" : "mm");
        const double from = uniform(random, -3000, 0);
        int figures = 0;
        for (const RuleTick& tick : ruleTicks(from, from + 210 / scale, scale, units))
            figures += tick.words.empty() ? 0 : 1;
        EXPECT_GE(figures, 2) << scale << " px per mm from " << from << (i % 2 ? " ft" : " mm");
    }
}

TEST(RuleTicks, StepsDivideTheNext) {
    for (const Unit unit : {Unit::mm, Unit::in}) {
        const auto& steps = ruleSteps(unit);
        for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
            const double ratio = steps[i + 1] / steps[i];
            EXPECT_NEAR(ratio, std::round(ratio), 1e-9) << steps[i];
        }
    }
}

TEST(RuleTicks, TooManyAreNone) {
    EXPECT_TRUE(ruleTicks(0, 1e12, 1e-3, styleFor("mm")).empty());
    EXPECT_TRUE(ruleTicks(0, std::nan(""), 1, styleFor("mm")).empty());
}

} // namespace
} // namespace slab::ui
