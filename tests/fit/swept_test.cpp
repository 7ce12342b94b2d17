// What mechanisms do over their range, in the fit's own figures: closed forms for an arm that turns.
#include "core/fit/swept.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

/// A ball at `radius` from an upright axis through the origin, at height 300, that turns all the way round.
MechanismSet ballOnAnArm(double radius, double ball) {
    MechanismSet set;
    Move turn;
    turn.endless = true;
    turn.from = -std::numbers::pi;
    turn.to = std::numbers::pi;
    set.motions = {{"table", {turn}}};
    set.solids = {{"table", "table/ball", makeCapsule({radius, 0, 300}, {radius, 0, 300}, ball), 0}};
    return set;
}

TEST(SweptFit, WhatTurnsIntoTheRiderIsAHitOfTheFit) {
    // Shell far away; a post of radius 50 at (-400, 0): the ball of 60 at 400 turns right through it; at
    // 300 it passes 100 - 110 = -10 deep; at 200 it stays 200 - 110 = 90 away; shown it is far off.
    const PlateSet shell = boxShell(3000, 2000, 1500, 12);
    const std::vector<FitSolid> post = {
        fitSolid("donor/post", makeCapsule({-400, 0, 300}, {-400, 0, 300}, 50), 40)};
    const FitResult rest = liveFit(post, shell);
    EXPECT_EQ(rest.state, FitState::fits);
    for (const double radius : {300.0, 260.0, 200.0}) {
        const MechanismSet set = sweepMechanisms(ballOnAnArm(radius, 60), shell, post, fitUnits);
        const FitResult fit = withSwept(rest, set, post, shell);
        const double gap = 400 - radius - 110;
        ASSERT_EQ(fit.swept.size(), 1U) << radius;
        EXPECT_EQ(fit.state, gap < 0 ? FitState::hits : gap < 40 ? FitState::tight : FitState::fits);
        EXPECT_NEAR(fit.leastClearance, std::max(gap, 0.0), 0.01);
        EXPECT_NEAR(fit.leastMargin, gap - 40, 0.2) << "a depth is found to 2 %";
        ASSERT_NE(bindingPair(fit), nullptr);
        EXPECT_EQ(bindingPair(fit)->plate, "table/ball");
        EXPECT_EQ(fit.pairs, rest.pairs) << "what is shown stays";
    }
}

TEST(SweptFit, TheLeastGapCountsWhatAPlateHidesFromTheSweeps) {
    // The ball passes a plate at 5 and the donor at 30, of which the sweeps keep the plate alone.
    PlateSet shell = boxShell(3000, 2000, 1500, 12);
    shell.plates.push_back(boxPlate("hull/near", {-20, 365, 200}, {20, 377, 400}, Vec3::UnitY()));
    const std::vector<FitSolid> post = {
        fitSolid("donor/post", makeCapsule({-440, 0, 300}, {-440, 0, 300}, 50), 20)};
    const MechanismSet set = sweepMechanisms(ballOnAnArm(300, 60), shell, post, fitUnits);
    ASSERT_FALSE(set.checks.empty());
    EXPECT_EQ(set.checks.back().fixed, "hull/near");
    const FitResult fit = withSwept(liveFit(post, shell), set, post, shell);
    EXPECT_EQ(fit.state, FitState::fits);
    EXPECT_NEAR(fit.leastClearance, 440 - 300 - 110, 0.01);
}

TEST(SweptFit, TakesTheWorseOfBothOnRandomArms) {
    auto random = seeded(57);
    const PlateSet shell = boxShell(3000, 2000, 1500, 12);
    for (int round = 0; round < 60 / slowdown; ++round) {
        const double radius = uniform(random, 50, 600), ball = uniform(random, 10, 100);
        const double far = uniform(random, 100, 900), post = uniform(random, 10, 90);
        const std::vector<FitSolid> solids = {
            fitSolid("donor/post", makeCapsule({-far, 0, 300}, {-far, 0, 300}, post), 20)};
        const FitResult rest = liveFit(solids, shell);
        const FitResult fit = withSwept(
            rest, sweepMechanisms(ballOnAnArm(radius, ball), shell, solids, fitUnits), solids, shell);
        const double gap = std::abs(far - radius) - ball - post;
        EXPECT_NEAR(fit.leastClearance, std::max(0.0, std::min(rest.leastClearance, gap)), 0.02);
        EXPECT_EQ(fit.state == FitState::hits, gap < 0);
    }
}

TEST(SweptFit, WithoutMechanismsNothingChanges) {
    const PlateSet shell = boxShell(3000, 2000, 1500, 12);
    const std::vector<FitSolid> post = {fitSolid("donor/post", makeBoxSolid({0, 0, 100}, {50, 50, 400}))};
    const FitResult rest = liveFit(post, shell);
    EXPECT_EQ(withSwept(rest, {}, post, shell), rest);
    EXPECT_EQ(bindingPair(FitResult{}), nullptr);
}

} // namespace
} // namespace slab
