#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <gmock/gmock.h>

namespace slab {
namespace {

// A box body of subject size 2500 x 1500 x 1250 and 12.7 mm plates round a box donor 900 x 600, z 33 to 400.
FitSolid boxDonor(double x = 0) {
    return fitSolid("donor/base", makeBoxSolid({x - 450, -300, 33}, {x + 450, 300, 400}), 20);
}
FitResult fitAt(double scale) {
    return liveFit({boxDonor()}, boxShell(scale * 2500, scale * 1500, scale * 1250, 12.7));
}
Probe probeAt(double scale) {
    return probeOf(fitAt(scale));
}

TEST(LeastFittingScale, BoxRoundBoxMatchesTheClosedForm) {
    // scale * L - 2 t = donor + 2 c along x and y; scale * H - t = top + c along z. The floor stands at 12.7.
    const double byLength = (900 + 2 * 20 + 2 * 12.7) / 2500; // 0.38616
    const double byWidth = (600 + 2 * 20 + 2 * 12.7) / 1500;  // 0.4436
    const double byHeight = (400 + 20 + 12.7) / 1250;         // 0.34616
    const double expected = std::max({byLength, byWidth, byHeight});
    const auto found = leastFittingScale(probeAt, 0.2, 1, 1e-6);
    ASSERT_TRUE(found);
    EXPECT_NEAR(*found, expected, 1e-6);
    EXPECT_EQ(fitAt(*found).state, FitState::fits);
    EXPECT_EQ(fitAt(*found - 2e-6).state, FitState::tight);
}

TEST(LeastFittingScale, RandomBoxesMatchTheClosedForm) {
    auto random = seeded(11);
    for (int round = 0; round < 40 / slowdown + 1; ++round) {
        const double l = uniform(random, 1500, 4000), w = uniform(random, 900, 2000),
                     h = uniform(random, 900, 2000);
        const double t = uniform(random, 3, 40), c = uniform(random, 0, 60);
        const Vec3 size(uniform(random, 200, 700), uniform(random, 200, 400), uniform(random, 100, 400));
        const FitSolid donor = fitSolid("donor/base",
                                        makeBoxSolid({-size.x() / 2, -size.y() / 2, t + c + 1},
                                                     {size.x() / 2, size.y() / 2, t + c + 1 + size.z()}),
                                        c);
        const auto probe = [&](double s) {
            return probeOf(liveFit({donor}, boxShell(s * l, s * w, s * h, t)));
        };
        const double expected = std::max({(size.x() + 2 * c + 2 * t) / l, (size.y() + 2 * c + 2 * t) / w,
                                          (size.z() + 2 * c + 2 * t + 1) / h});
        const auto found = leastFittingScale(probe, 0.8 * expected, 3 * expected, 1e-7);
        ASSERT_TRUE(found) << "round " << round;
        EXPECT_NEAR(*found, expected, 1e-6) << "round " << round;
    }
}

TEST(LeastFittingScale, SaysWhenNothingFitsOrEverythingDoes) {
    const auto never = leastFittingScale(probeAt, 0.1, 0.3, 1e-4);
    ASSERT_FALSE(never);
    EXPECT_EQ(never.error().code, "never-fits");
    EXPECT_FALSE(never.error().remedy.empty());
    const auto always = leastFittingScale(probeAt, 0.6, 1, 1e-4);
    ASSERT_TRUE(always);
    EXPECT_EQ(*always, 0.6);
}

TEST(LeastFittingScale, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto found = leastFittingScale(probeAt, 0.2, 1, 1e-6, Job{stop.get_token(), {}});
    ASSERT_FALSE(found);
    EXPECT_EQ(found.error().code, "stopped");
}

TEST(FitBands, HitsTightFitsInOrderWithEdgesFound) {
    const auto bands = fitBands(probeAt, 0.2, 0.8, 12, 1e-6);
    ASSERT_EQ(bands.size(), 3U);
    EXPECT_EQ(bands[0].state, FitState::hits);
    EXPECT_EQ(bands[1].state, FitState::tight);
    EXPECT_EQ(bands[2].state, FitState::fits);
    // Touching across the width: scale * 1500 - 2 t = 600.
    EXPECT_NEAR(bands[1].from, (600 + 2 * 12.7) / 1500, 2e-6);
    EXPECT_NEAR(bands[2].from, (600 + 2 * 32.7) / 1500, 2e-6);
    EXPECT_EQ(bands[0].from, 0.2);
    EXPECT_EQ(bands[2].to, 0.8);
    for (std::size_t i = 1; i < bands.size(); ++i) EXPECT_EQ(bands[i].from, bands[i - 1].to);
    EXPECT_THAT(bands[1].bindingAt(bands[1].from),
                ::testing::AnyOf("donor/base – hull/port", "donor/base – hull/starboard"));
    EXPECT_EQ(bands[2].bindingAt(0.8), "");
}

TEST(FitBands, TheBindingPairMayChangeWithinABand) {
    const auto probe = [](double at) -> Probe {
        return {-30, -10, at < 0.5 ? "seat – port" : "hand – roof"};
    };
    const auto bands = fitBands(probe, 0, 1, 100, 1e-4);
    ASSERT_EQ(bands.size(), 1U);
    ASSERT_EQ(bands[0].bindings.size(), 2U);
    EXPECT_EQ(bands[0].bindingAt(0.3), "seat – port");
    EXPECT_EQ(bands[0].bindingAt(0.7), "hand – roof");
    EXPECT_NEAR(bands[0].bindings[1].from, 0.5, 0.01);
}

TEST(FitBands, OneBandAndEmptyRange) {
    EXPECT_EQ(fitBands(probeAt, 0.6, 0.8, 4, 1e-4).size(), 1U);
    EXPECT_TRUE(fitBands(probeAt, 0.8, 0.6, 4, 1e-4).empty());
}

TEST(ProbeOf, HitSomewhereElseStaysAHit) {
    // A tight pair with a large wish binds, yet the shallow hit must show.
    FitResult fit;
    FitPair tight, hit;
    tight.state = FitState::tight;
    tight.clearance = 1;
    tight.wanted = 200;
    hit.state = FitState::hits;
    hit.depth = 3;
    fit.pairs = {tight, hit};
    EXPECT_EQ(probeOf(fit).margin, -199);
    EXPECT_EQ(probeOf(fit).clearance, -3);
}

TEST(BestPlace, CentresABoxBetweenFrontAndBack) {
    auto random = seeded(5);
    for (int round = 0; round < 20 / slowdown + 1; ++round) {
        const double off = uniform(random, -60, 60);
        // 1100 long inside: 87.3 mm ahead and behind when centred; sides 200 away.
        const double shift = bestPlace({boxDonor(off)}, boxShell(1100, 1000, 900, 12.7));
        const FitResult fit = liveFit({boxDonor(off + shift)}, boxShell(1100, 1000, 900, 12.7));
        // The floor is 20.3 mm away wherever the donor stands, so it binds; no place can do better.
        EXPECT_NEAR(fit.leastClearance, 33 - 12.7, 1e-9);
    }
    FitSolid high = fitSolid("donor/base", makeBoxSolid({-410, -100, 200}, {490, 100, 400}));
    const double shift = bestPlace({high}, boxShell(1100, 1000, 900, 12.7));
    EXPECT_NEAR(shift, -40, 0.02);
}

TEST(BestPlace, FreesADonorThatHits) {
    const FitSolid donor = fitSolid("donor/base", makeBoxSolid({100, -100, 200}, {800, 100, 400}));
    const double shift = bestPlace({donor}, boxShell(1100, 1000, 900, 12.7));
    EXPECT_NEAR(shift, -450, 0.02);
}

TEST(BestPlace, DoesNotDependOnWhereTheDonorStood) {
    // The floor binds along a whole stretch: its middle is the one place, wherever the search began.
    const PlateSet shell = boxShell(1100, 1000, 900, 12.7);
    auto random = seeded(23);
    for (int round = 0; round < 20 / slowdown + 1; ++round) {
        const double off = uniform(random, -5000, 5000);
        EXPECT_NEAR(off + bestPlace({boxDonor(off)}, shell), 0, 0.03) << off;
    }
}

TEST(BestPlace, NeverLeavesTheBody) {
    // Too wide for the shell: it hits at every place inside, and would be free outside.
    const PlateSet shell = boxShell(1100, 1000, 900, 12.7);
    const FitSolid wide = fitSolid("donor/base", makeBoxSolid({2000, -495, 200}, {2300, 495, 400}));
    const double shift = bestPlace({wide}, shell);
    EXPECT_GE(2000 + shift, -550 - 1e-6);
    EXPECT_LE(2300 + shift, 550 + 1e-6);
}

TEST(BestPlace, NothingToPlaceStays) {
    EXPECT_EQ(bestPlace({}, boxShell(1100, 1000, 900, 12.7)), 0);
    EXPECT_EQ(bestPlace({boxDonor()}, {}), 0);
}

TEST(Outside, ADonorBesideTheBodyDoesNotFit) {
    const PlateSet shell = boxShell(1100, 1000, 900, 12.7);
    struct Case {
        Vec3 by;
        double gap;
        const char *where, *remedy;
    };
    for (const Case& c : {Case{{3000, 0, 0}, 3000 - 100 - 550, "ahead of it", "Move the donor back"},
                          Case{{-3000, 0, 0}, 3000 - 100 - 550, "behind it", "Move the donor forward"},
                          Case{{0, 2000, 0}, 2000 - 100 - 500, "to port of it", "to starboard"},
                          Case{{0, -2000, 0}, 2000 - 100 - 500, "to starboard of it", "to port"}}) {
        const FitSolid donor =
            fitSolid("donor/base", translated(makeBoxSolid({-100, -100, 200}, {100, 100, 400}), c.by));
        const FitResult fit = liveFit({donor}, shell);
        EXPECT_EQ(fit.state, FitState::hits);
        ASSERT_EQ(fit.outside.size(), 1U);
        EXPECT_EQ(fit.outside[0].group, "donor");
        EXPECT_NEAR(fit.outside[0].gap, c.gap, 1e-9);
        ASSERT_EQ(fit.findings.size(), 1U);
        EXPECT_EQ(fit.findings[0].code, "stands-outside");
        EXPECT_THAT(fit.findings[0].message, ::testing::HasSubstr(c.where));
        EXPECT_THAT(fit.findings[0].remedy, ::testing::HasSubstr(c.remedy));
        EXPECT_LT(probeOf(fit).margin, 0);
        EXPECT_EQ(probeOf(fit).binding, "donor outside the body");
    }
    // The rider sits on the donor: one entry for both.
    const FitResult both =
        liveFit({fitSolid("donor/base", makeBoxSolid({2000, -100, 200}, {2200, 100, 400})),
                 fitSolid("rider/head", makeBoxSolid({2000, -100, 400}, {2200, 100, 600}))},
                shell);
    EXPECT_EQ(both.outside.size(), 2U);
    ASSERT_EQ(both.findings.size(), 1U);
    EXPECT_EQ(both.findings[0].about.front(), "solid:donor/base");
    // Sticking out through an end is no matter of this check.
    const FitResult through =
        liveFit({fitSolid("donor/base", makeBoxSolid({400, -100, 200}, {900, 100, 400}))}, shell);
    EXPECT_TRUE(through.outside.empty());
}

TEST(EveryPair, HasEverySolidWithEveryPlate) {
    const PlateSet shell = boxShell(1100, 1000, 900, 12.7);
    const std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-300, -200, 100}, {250, 150, 500})),
        fitSolid("rider/head", makeBoxSolid({-50, -50, 600}, {50, 50, 895}))}; // into the top
    const FitResult fit = liveFit(solids, shell);
    const auto every = everyPair(fit, solids, shell);
    ASSERT_EQ(every.size(), 12U);
    const auto clearance = [&](const std::string& solid, const std::string& plate) {
        for (const FitPair& p : every)
            if (p.solid == solid && p.plate == plate) return p.clearance;
        return -1.0;
    };
    EXPECT_NEAR(clearance("donor/base", "hull/front"), 550 - 12.7 - 250, 1e-9);
    EXPECT_NEAR(clearance("donor/base", "hull/back"), 550 - 12.7 - 300, 1e-9);
    EXPECT_NEAR(clearance("donor/base", "hull/port"), 500 - 12.7 - 150, 1e-9);
    EXPECT_NEAR(clearance("donor/base", "hull/starboard"), 500 - 12.7 - 200, 1e-9);
    EXPECT_NEAR(clearance("donor/base", "hull/top"), 900 - 12.7 - 500, 1e-9);
    EXPECT_NEAR(clearance("donor/base", "hull/floor"), 100 - 12.7, 1e-9);
    EXPECT_EQ(clearance("rider/head", "hull/top"), 0);
    // What the fit holds is taken over as it is.
    for (const FitPair& p : fit.pairs) EXPECT_TRUE(std::count(every.begin(), every.end(), p) == 1) << p.plate;
}

} // namespace
} // namespace slab
