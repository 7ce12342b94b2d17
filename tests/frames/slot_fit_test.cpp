// Fits that cannot be cut, and doubtful ones.
#include "core/frames/slot_fit.h"
#include "tests/frames/crate.h"

namespace slab {
namespace {

FrameChoice fitted(FrameChoice c, double fit, double thickness = thick) {
    c.fit = fit;
    c.thickness = thickness;
    return c;
}

TEST(SlotFit, aFitThatLeavesNoSlotIsToldAndNotCut) {
    const Crate crate;
    auto random = seeded(91);
    for (int round = 0; round < 30; ++round) {
        const double own = uniform(random, 4, 14), other = uniform(random, 4, 14);
        const double fit = uniform(random, -1.5 * other, 2.5 * other);
        SCOPED_TRACE(testing::Message() << "fit " << fit << " for " << other);
        const FrameSet set =
            crate.make({fitted(across("rib", 500), fit, own), fitted(lengthwise("keelson", 0), 0, other)});
        ASSERT_EQ(set.crossings.size(), 1U);
        const bool nonsense = fit < -other / 2 || fit > other;
        const FrameCrossing& c = set.crossings[0];
        EXPECT_NEAR(c.a == "rib" ? c.slotA : c.slotB, nonsense ? other : other + fit, 1e-9);
        const Finding* told = find(set.findings, "frame-fit");
        ASSERT_EQ(told != nullptr, nonsense) << report(set.findings);
        if (told) {
            EXPECT_EQ(told->severity, Severity::stop);
            EXPECT_NE(told->message.find(printThickness(fit, {})), std::string::npos) << told->message;
            EXPECT_NE(told->message.find("keelson"), std::string::npos);
        }
        const frames::FitRange usual = frames::usualFit(other, false);
        EXPECT_EQ(find(set.findings, "frame-fit-tight") != nullptr, !nonsense && fit < usual.tightest);
        EXPECT_EQ(find(set.findings, "frame-fit-loose") != nullptr, !nonsense && fit > usual.loosest);
    }
}

TEST(SlotFit, usualFitsAndFramesThatMeetNothing) {
    // Common practice: a twentieth of 12 mm driven in, an eighth of it loose; foam gives by a tenth.
    EXPECT_DOUBLE_EQ(frames::usualFit(12, false).tightest, -0.6);
    EXPECT_DOUBLE_EQ(frames::usualFit(12, false).loosest, 1.5);
    EXPECT_DOUBLE_EQ(frames::usualFit(25, true).tightest, -2.5);
    EXPECT_DOUBLE_EQ(frames::usualFit(3, false).loosest, 1);
    const Crate crate;
    EXPECT_TRUE(crate.make({fitted(across("rib", 500), -50), across("twin", 700)}).findings.empty());
}

} // namespace
} // namespace slab
