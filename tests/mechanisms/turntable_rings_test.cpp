// Ring sizes worked by hand; play and rocking by plane trigonometry.
#include "core/mechanisms/turntable_rings.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {

namespace {

RingProblem worked() {
    return {400, 3, 25, 6, false, 3, 15, 70, 12};
}

TEST(TurntableRings, WorkedExampleByHand) {
    // Lip 400 + 2·25 = 450. Seat hole 400 + 2·3 = 406, spacer hole 450 + 2·3 = 456, cap hole 450 - 2·15 =
    // 420, outside 406 + 2·70 = 546. Spacer 6 + 3 = 9 from 12 mm sheet: one layer, 3 mm packed under the lip.
    const auto r = ringSizes(worked());
    ASSERT_TRUE(r);
    EXPECT_DOUBLE_EQ(r->lipDiameter, 450);
    EXPECT_DOUBLE_EQ(r->seatHole, 406);
    EXPECT_DOUBLE_EQ(r->spacerHole, 456);
    EXPECT_DOUBLE_EQ(r->capHole, 420);
    EXPECT_DOUBLE_EQ(r->outside, 546);
    EXPECT_EQ(r->spacerLayers, 1);
    EXPECT_NEAR(r->packing, 3, 1e-12);
    EXPECT_TRUE(r->packingUnderLip);
    EXPECT_NEAR(r->lipTop, 12 + 3 + 6, 1e-12);
    EXPECT_NEAR(r->capUnder, 24, 1e-12);
    EXPECT_NEAR(r->capTop, 36, 1e-12);
    // Pushed aside by 3: on the seat 25 - 3 - 3 = 19 left, under the cap 15 - 3 = 12.
    EXPECT_DOUBLE_EQ(r->play, 3);
    EXPECT_DOUBLE_EQ(r->seatLeft, 19);
    EXPECT_DOUBLE_EQ(r->capLeft, 12);
    // Rocking: 450 sin a + 6 cos a = 9; to first order a = 3 / 450.
    EXPECT_NEAR(450 * std::sin(r->tilt) + 6 * std::cos(r->tilt), 9, 1e-9);
    EXPECT_NEAR(r->tilt, 3.0 / 450, 1e-4);
}

TEST(TurntableRings, ThinSheetTakesLayersAndTheThinnerPacking) {
    RingProblem p = worked();
    p.ringThickness =
        4; // 9 = 2 layers and 1 mm packed on the spacer, rather than 3 layers and 3 mm under the lip
    const auto r = ringSizes(p);
    ASSERT_TRUE(r);
    EXPECT_EQ(r->spacerLayers, 2);
    EXPECT_NEAR(r->packing, 1, 1e-9);
    EXPECT_FALSE(r->packingUnderLip);
    EXPECT_NEAR(r->capUnder - r->lipTop, p.gap, 1e-9);
    p.ringThickness = 4.5; // two layers to the hair
    EXPECT_EQ(ringSizes(p)->spacerLayers, 2);
    EXPECT_EQ(ringSizes(p)->packing, 0);
}

TEST(TurntableRings, ADrumThatRisesStaysClearOfTheCap) {
    RingProblem p = worked();
    p.rises = true;
    p.overlap = 40;
    const auto r = ringSizes(p);
    ASSERT_TRUE(r);
    EXPECT_DOUBLE_EQ(r->seatHole, 394);
    EXPECT_DOUBLE_EQ(r->capHole, 406);
    EXPECT_DOUBLE_EQ(r->capLeft, 19);
}

TEST(TurntableRings, TheGapIsAlwaysAsAsked) {
    auto random = seeded(3);
    for (int i = 0; i < 500; ++i) {
        RingProblem p{uniform(random, 100, 900), uniform(random, 1, 10),   uniform(random, 15, 60),
                      uniform(random, 1, 30),    below(random, 2) == 1,    uniform(random, 1, 5),
                      uniform(random, 8, 15),    uniform(random, 80, 150), uniform(random, 2, 25)};
        const auto r = ringSizes(p);
        ASSERT_TRUE(r) << r.error().message;
        EXPECT_NEAR(r->capUnder - r->lipTop, p.gap, 1e-9);
        const double between = r->spacerLayers * p.ringThickness + (r->packingUnderLip ? -1 : 1) * r->packing;
        EXPECT_NEAR(between, p.lipThickness + p.gap, 1e-9);
        EXPECT_LE(r->packing, p.ringThickness / 2 + (r->spacerLayers == 1 ? p.ringThickness / 2 : 1e-9));
        EXPECT_NEAR(r->spacerHole, r->lipDiameter + 2 * p.gap, 1e-9);
        EXPECT_LT(r->seatHole, r->lipDiameter);
        EXPECT_LT(r->capHole, r->lipDiameter);
    }
}

TEST(TurntableRings, Refusals) {
    const auto code = [](auto change) {
        RingProblem p = worked();
        change(p);
        const auto r = ringSizes(p);
        return r ? std::string("made") : r.error().code;
    };
    EXPECT_EQ(code([](RingProblem& p) { p.gap = 0; }), "ring-size");
    EXPECT_EQ(code([](RingProblem& p) { p.diameter = -1; }), "ring-size");
    EXPECT_EQ(code([](RingProblem& p) { p.ringWidth = 25; }), "ring-narrow");
    EXPECT_EQ(code([](RingProblem& p) { p.lip = 6; }), "ring-seat-lost");
    EXPECT_EQ(code([](RingProblem& p) { p.overlap = 3; }), "ring-cap-lost");
}

} // namespace

} // namespace slab
