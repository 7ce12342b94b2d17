// OpenCASCADE as the arbiter of the live figures.
#include "core/fit/known_pairs.h"
#include "core/geometry/occt.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <numbers>

namespace slab {
namespace {

constexpr double pi = std::numbers::pi;

TEST(ConfirmedFit, KeepsLiveDistancesAndMarksThem) {
    const PlateSet shell = boxShell(1000, 600, 500, 12.7);
    const std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-350, -195, 60}, {350, 205, 300}), 100),
        fitSolid("donor/wheel", makeCylinder({100, 200, 250}, {110, 250, 240}, 170), 60),
        fitSolid("rider/arm", makeCapsule({0, 0, 300}, {300, 10, 400}, 50), 60),
    };
    const FitResult live = liveFit(solids, shell);
    const FitResult fit = confirmedFit(live, solids, shell);
    EXPECT_TRUE(fit.confirmed);
    ASSERT_EQ(fit.pairs.size(), live.pairs.size());
    for (std::size_t i = 0; i < fit.pairs.size(); ++i) {
        EXPECT_TRUE(fit.pairs[i].confirmed);
        EXPECT_EQ(fit.pairs[i].clearance, live.pairs[i].clearance);
        EXPECT_EQ(fit.pairs[i].state, live.pairs[i].state);
    }
    EXPECT_EQ(fit.findings, live.findings);
}

TEST(ConfirmedFit, GivesRoundSolidsTheirCommonVolume) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const std::vector<FitSolid> solids = {
        // Straight through the port plate.
        fitSolid("donor/post", makeCylinder({0, 200, 250}, {0, 400, 250}, 40)),
        // A ball's cap of height 12 - 2 = 10 beyond the top plate's inner face at 488.
        fitSolid("rider/head", makeCapsule({200, 0, 398}, {200, 0, 398}, 100)),
        fitSolid("donor/box", makeBoxSolid({-300, -310, 100}, {-200, -200, 200})),
    };
    const FitResult fit = confirmedFit(liveFit(solids, shell), solids, shell);
    EXPECT_TRUE(fit.confirmed);
    EXPECT_NEAR(pairOf(fit, "donor/post", "hull/port")->volume, pi * 40 * 40 * 12, 1e-3);
    EXPECT_NEAR(pairOf(fit, "rider/head", "hull/top")->volume, pi * 100 * (3 * 100 - 10) / 3, 1e-3);
    EXPECT_NEAR(pairOf(fit, "rider/head", "hull/top")->depth, 10, 1e-9);
    EXPECT_NEAR(pairOf(fit, "donor/box", "hull/starboard")->volume, 100.0 * 100 * 12, 1e-6);
    EXPECT_EQ(fit.state, FitState::hits);
}

TEST(ConfirmedFit, WhatCannotBeJudgedStaysUnmarked) {
    PlateSet shell = boxShell(1000, 600, 500, 12);
    const std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-100, -100, 27}, {100, 100, 200}))};
    const FitResult live = liveFit(solids, shell);
    ASSERT_EQ(live.pairs.size(), 1U);
    shell.plates.ownEach([&](Plate& plate) {
        if (plate.name == live.pairs[0].plate) plate.solid.faces.pop_back(); // not closed any more
    });
    const FitResult fit = confirmedFit(live, solids, shell);
    EXPECT_FALSE(fit.confirmed);
    EXPECT_FALSE(fit.pairs[0].confirmed);
    EXPECT_EQ(fit.pairs[0].clearance, live.pairs[0].clearance);
    const auto doubt = std::find_if(fit.findings.begin(), fit.findings.end(),
                                    [](const Finding& f) { return f.code == "fit-unconfirmed"; });
    ASSERT_NE(doubt, fit.findings.end());
    EXPECT_FALSE(doubt->remedy.empty());
}

TEST(ConfirmedFit, DisagreementGivesWayToTheArbiter) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-100, -100, 27}, {100, 100, 200}))};
    FitResult wrong = liveFit(solids, shell);
    ASSERT_EQ(wrong.pairs.size(), 1U);
    wrong.pairs[0].clearance = 15.1;
    const FitResult fit = confirmedFit(wrong, solids, shell);
    EXPECT_NEAR(fit.pairs[0].clearance, 15, 1e-9);
    ASSERT_EQ(fit.findings.size(), 2U);
    EXPECT_EQ(fit.findings[1].code, "fit-verdict");
}

TEST(ConfirmedFit, StoppedComesBackAsItWas) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-100, -100, 27}, {100, 100, 200}))};
    const FitResult live = liveFit(solids, shell);
    std::stop_source stop;
    stop.request_stop();
    EXPECT_EQ(confirmedFit(live, solids, shell, Job{stop.get_token(), {}}), live);
}

TEST(ConfirmedFit, RandomSolidsDifferByLessThanAMillionthOfAMillimetre) {
    auto random = seeded(3);
    const auto at = [&](double s) {
        return Vec3(uniform(random, -s, s), uniform(random, -s, s), uniform(random, -s, s));
    };
    double worst = 0;
    int compared = 0;
    for (int round = 0; round < 12 / slowdown + 1; ++round) {
        const PlateSet shell = boxShell(1100, 800, 900, uniform(random, 3, 50));
        std::vector<FitSolid> solids;
        for (int i = 0; i < 3; ++i) {
            const Vec3 c = at(150) + Vec3(0, 0, 450), d = at(100);
            solids.push_back(fitSolid("donor/wheel " + std::to_string(i),
                                      makeCylinder(c, c + d, uniform(random, 20, 120)), 150));
            solids.push_back(fitSolid("rider/arm " + std::to_string(i),
                                      makeCapsule(c, c - d, uniform(random, 20, 80)), 150));
            ConvexSolid hull;
            for (int k = 0; k < 8; ++k) hull.points.push_back(c + at(120));
            solids.push_back(fitSolid("donor/hull " + std::to_string(i), hull, 150));
        }
        const FitResult live = liveFit(solids, shell);
        const FitResult fit = confirmedFit(live, solids, shell);
        EXPECT_TRUE(fit.confirmed) << "round " << round;
        for (std::size_t i = 0; i < fit.pairs.size(); ++i) {
            EXPECT_EQ(fit.pairs[i].clearance, live.pairs[i].clearance)
                << "round " << round << " " << live.pairs[i].solid << " " << live.pairs[i].plate;
            if (live.pairs[i].state == FitState::hits) continue;
            const auto solid = std::find_if(solids.begin(), solids.end(),
                                            [&](const FitSolid& f) { return f.name == live.pairs[i].solid; });
            const auto plate = std::find_if(shell.plates.begin(), shell.plates.end(),
                                            [&](const Plate& p) { return p.name == live.pairs[i].plate; });
            const auto direct = occt::nearest(plate->solid, solid->shape);
            ASSERT_TRUE(direct);
            worst = std::max(worst, std::abs(direct->distance - live.pairs[i].clearance));
            ++compared;
        }
    }
    std::printf("%d pairs, largest difference %.3g mm\n", compared, worst);
    EXPECT_GT(compared, 15);
    EXPECT_LE(worst, 1e-6);
}

// One plate or solid changes at a time: what is taken over from the look before must not show.
TEST(ConfirmedFit, WhatIsKnownOfPairsThatAreAsTheyWereIsTakenOver) {
    auto random = seeded(17);
    PlateSet shell = boxShell(1000, 600, 500, 12);
    std::vector<FitSolid> solids = {
        fitSolid("donor/base", makeBoxSolid({-350, -195, 60}, {350, 205, 300}), 100),
        fitSolid("donor/wheel", makeCylinder({100, 200, 250}, {110, 250, 240}, 170), 60),
        fitSolid("rider/head", makeCapsule({200, 0, 380}, {200, 0, 398}, 100)),
    };
    KnownPairs known;
    std::size_t reused = 0, pairs = 0;
    for (int round = 0; round < 12; ++round) {
        const FitResult live = liveFit(solids, shell);
        const FitResult fit = confirmedFit(live, solids, shell, known);
        EXPECT_EQ(fit, confirmedFit(live, solids, shell)) << round;
        pairs += fit.pairs.size();
        reused += known.reused;
        const Vec3 shift(uniform(random, -4, 4), uniform(random, -4, 4), uniform(random, -4, 4));
        if (round % 2 == 0) {
            FitSolid& s = solids[static_cast<std::size_t>(round / 2) % solids.size()];
            s.shape = translated(s.shape, shift);
            continue;
        }
        Plate& plate = shell.plates.own(static_cast<std::size_t>(round) % shell.plates.size());
        plate.solid = moved(plate.solid, Mat3::Identity(), shift);
        plate.frame.origin += shift;
        for (ConvexSolid& cell : plate.cells) cell = translated(cell, shift);
    }
    EXPECT_GT(reused, pairs / 4);
    EXPECT_LT(reused, pairs * 9 / 10) << "what has changed is judged again";
}

} // namespace
} // namespace slab
