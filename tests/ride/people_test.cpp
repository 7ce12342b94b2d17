// Exits and gaps against the published sizes.
#include "core/ride/people.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::ride;

namespace {

bool catches(double gap, Caught what, bool moving) {
    const auto found = gapHazards(gap, moving);
    EXPECT_TRUE(found);
    return std::any_of(found->begin(), found->end(),
                       [&](const GapRule& rule) { return rule.caught == what; });
}

} // namespace

TEST(People, ExitWidthOfTheTable) {
    // widest of shoulders (95th male 567) and hips (95th female 456), ANSUR II, and 50 mm each side: 667
    EXPECT_NEAR(*exitWidth(567, 456), 667, 1e-12);
    EXPECT_NEAR(*exitWidth(400, 456), 556, 1e-12);
    EXPECT_EQ(exitWidth(0, 456).error().code, "out-of-range");
    EXPECT_EQ(exitWidth(400, 456, -1).error().code, "out-of-range");
}

TEST(People, SeatedHeightsOfTheTable) {
    // seat 450 mm: head of the 95th male (sitting height 977) at 1427; eyes from 1148 (5th female, 698) to
    // 1310 (95th male, 860); ANSUR II
    EXPECT_NEAR(*seatedHeight(450, 977), 1427, 1e-12);
    EXPECT_NEAR(*seatedHeight(450, 698), 1148, 1e-12);
    EXPECT_NEAR(*seatedHeight(450, 860), 1310, 1e-12);
    EXPECT_NEAR(*seatedHeight(450, 977, 40), 1467, 1e-12);
    EXPECT_EQ(seatedHeight(-1, 977).error().code, "out-of-range");
    EXPECT_EQ(seatedHeight(450, 0).error().code, "out-of-range");
}

TEST(People, HeadsAndFingers) {
    // CPSC handbook B.2.5.1: refused if greater than 3.5 in and less than 9 in
    EXPECT_FALSE(catches(3.5 * 25.4, Caught::head, false));
    EXPECT_TRUE(catches(3.51 * 25.4, Caught::head, false));
    EXPECT_TRUE(catches(8.99 * 25.4, Caught::head, true));
    EXPECT_FALSE(catches(9 * 25.4, Caught::head, false));
    // CEN/TR 13387: under 5 mm or over 12 mm; fingers 3/8 to 1 in by CFOC 6.2.1.9
    EXPECT_FALSE(catches(4.9, Caught::finger, true));
    EXPECT_TRUE(catches(8, Caught::finger, true));
    EXPECT_TRUE(catches(8, Caught::finger, false));
    EXPECT_TRUE(catches(20, Caught::finger, false));
    EXPECT_FALSE(catches(26, Caught::finger, true));
    // Index fingers of Snyder et al. 1977, 5th to 95th percentile: at 4 years 9.5 to 11.9 mm, at 6 10.3 to
    // 12.7, at 10 11.9 to 14.3. A gap that such a finger just fills is told, by one rule or by both.
    for (const double finger : {9.55, 10.3, 11.9, 12.7, 14.3}) {
        EXPECT_TRUE(catches(finger, Caught::finger, false)) << finger;
        EXPECT_TRUE(catches(finger, Caught::finger, true)) << finger;
    }
    EXPECT_NEAR(leastVAngle() * 180 / std::numbers::pi, 55, 1e-12);
    EXPECT_EQ(gapHazards(-1, false).error().code, "out-of-range");
}

TEST(People, MovingIsNeverSafer) {
    auto random = seeded(52);
    for (int round = 0; round < 500; ++round) {
        const double gap = uniform(random, 0, 300);
        const auto still = gapHazards(gap, false), moving = gapHazards(gap, true);
        EXPECT_LE(still->size(), moving->size());
        for (const GapRule& rule : *moving) EXPECT_TRUE(gap > rule.from && gap < rule.to);
    }
}

TEST(People, EscapeOpening) {
    // 20 x 24 in are 3.33 ft²: each size passes, the area of 5.7 ft² does not (IRC R310, from memory)
    const auto small = escapeOpening(20 * 25.4, 24 * 25.4);
    ASSERT_TRUE(small);
    EXPECT_NEAR(small->width, 0, 1e-9);
    EXPECT_NEAR(small->height, 0, 1e-9);
    EXPECT_NEAR(small->area / (304.8 * 304.8), 20 * 24 / 144.0 - 5.7, 1e-9);
    EXPECT_FALSE(small->passes());
    EXPECT_TRUE(escapeOpening(20 * 25.4, 41.1 * 25.4)->passes());
    EXPECT_EQ(escapeOpening(-1, 1).error().code, "out-of-range");
}

TEST(People, SeatedCentreOfTheTable) {
    // Snyder 1977, median height of the seated centre of mass over the seat by age group, and median sitting
    // heights of the years in it (619 at 5, 670 at 7, 702 at 9, 757 at 11.5): medians of their own columns,
    // so alike within 3 %
    struct Row {
        double age, sitting, above;
    };
    for (const Row& row : {Row{5, 619, 205}, Row{7, 668, 204}, Row{9, 701.5, 206}, Row{11.5, 757, 209}}) {
        const auto centre = seatedCentre(row.sitting, row.age);
        ASSERT_TRUE(centre);
        EXPECT_NEAR(centre->above, row.above, 0.03 * row.above) << row.age;
    }
    // adults 0.25 to 0.27 of sitting height: M50 918 → 235 to 250 mm; toy standard's load 220 mm over the
    // seat
    EXPECT_GT(seatedCentre(918, 40)->above, 235);
    EXPECT_LT(seatedCentre(918, 40)->above, 250);
    EXPECT_EQ(seatedCentre(600, 5)->forward, 145);
    EXPECT_EQ(seatedCentre(600, 4)->forward, 145);
    auto random = seeded(53);
    for (int round = 0; round < 200; ++round) {
        const double age = uniform(random, 4, 60), sitting = uniform(random, 500, 1000);
        const auto centre = seatedCentre(sitting, age), taller = seatedCentre(sitting * 1.1, age);
        EXPECT_NEAR(taller->above, centre->above * 1.1, 1e-9);
        EXPECT_GE(centre->above, 0.26 * sitting - 1e-9);
        EXPECT_LE(centre->above, 0.325 * sitting + 1e-9);
    }
    EXPECT_EQ(seatedCentre(0, 10).error().code, "out-of-range");
    EXPECT_EQ(seatedCentre(700, 3).error().code, "out-of-range");
}
