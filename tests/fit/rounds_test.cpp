// Round forms in the fit: closed forms for cylinders, cones and tubes.
#include "core/mechanisms/rounds.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

RoundPart pipe(const std::string& name, const Vec3& base, const Vec3& top, double radius) {
    RoundPart r;
    r.name = name;
    r.base = base;
    r.top = top;
    r.radius = r.topRadius = radius;
    return r;
}

TEST(Rounds, APipeBesideTheHeadIsTightAndOneThroughItHits) {
    // A ball of 100 at (0, 0, 300) and a pipe of 75 about (x, 0): they are |x| - 175 apart.
    const PlateSet shell = boxShell(2000, 1000, 900, 12);
    const std::vector<FitSolid> head = {
        fitSolid("rider/head", makeCapsule({0, 0, 300}, {0, 0, 300}, 100), 30)};
    for (const double x : {300.0, 190.0, -140.0}) {
        const PlateSet all = withRounds(shell, {pipe("stack", {x, 0, 100}, {x, 0, 500}, 75)});
        const FitResult fit = confirmedFit(liveFit(head, all), head, all);
        const FitPair* p = pairOf(fit, "rider/head", "stack");
        const double gap = std::abs(x) - 175;
        ASSERT_NE(p, nullptr);
        EXPECT_TRUE(p->confirmed);
        EXPECT_EQ(p->state, gap < 0 ? FitState::hits : gap < 30 ? FitState::tight : FitState::fits);
        EXPECT_NEAR(gap < 0 ? -p->depth : p->clearance, gap, 1e-6);
        EXPECT_EQ(fit.state, p->state);
        if (p->state == FitState::fits) continue;
        ASSERT_EQ(fit.findings.size(), 1U);
        EXPECT_EQ(fit.findings[0].code, gap < 0 ? "fit-hits" : "fit-tight");
        EXPECT_THAT(fit.findings[0].message, ::testing::StartsWith("Round form: stack"));
        EXPECT_THAT(fit.findings[0].about, ::testing::ElementsAre("solid:rider/head", "form:stack"));
        EXPECT_THAT(fit.findings[0].remedy, ::testing::HasSubstr("Move round form stack at least"));
    }
}

TEST(Rounds, WhoSitsInAWideTubeDoesNotHitIt) {
    // A box of half diagonal 200·√2 = 282.8 in a bore of 395: 112.2 on all sides, less at most 0.2 % facets.
    RoundPart tube = pipe("boiler", {0, 0, 100}, {0, 0, 900}, 400);
    tube.wall = 5;
    const PlateSet all = withRounds(boxShell(3000, 2000, 1500, 12), {tube});
    const std::vector<FitSolid> seat = {
        fitSolid("donor/seat", makeBoxSolid({-200, -200, 300}, {200, 200, 600}))};
    const FitResult fit = confirmedFit(liveFit(seat, all), seat, all);
    const double true_gap = 395 - 200 * std::numbers::sqrt2;
    EXPECT_EQ(fit.state, FitState::fits);
    EXPECT_TRUE(fit.confirmed);
    EXPECT_LE(fit.leastClearance, true_gap + 1e-9);
    EXPECT_GE(fit.leastClearance, true_gap - 0.0022 * 395);
    const std::vector<FitSolid> arm = {fitSolid("rider/arm", makeBoxSolid({0, -20, 300}, {600, 20, 340}))};
    EXPECT_EQ(liveFit(arm, all).state, FitState::hits) << "through its wall";
}

TEST(Rounds, AConeIsJudgedByTheArbiterToo) {
    // Half way up, its radius is (120 + 60) / 2 = 90; its side leans by atan(60 / 400). A ball of 50 at that
    // height and x = 300: along the side's normal, (300 - 90) cos a - 50, less its facets.
    RoundPart cone = pipe("capstan", {0, 0, 100}, {0, 0, 500}, 120);
    cone.topRadius = 60;
    const PlateSet all = withRounds(boxShell(2000, 1000, 900, 12), {cone});
    const std::vector<FitSolid> head = {
        fitSolid("rider/head", makeCapsule({300, 0, 300}, {300, 0, 300}, 50), 200)};
    const FitResult fit = confirmedFit(liveFit(head, all), head, all);
    const FitPair* p = pairOf(fit, "rider/head", "capstan");
    ASSERT_NE(p, nullptr);
    EXPECT_TRUE(p->confirmed);
    const double gap = 210 * std::cos(std::atan2(60.0, 400.0)) - 50;
    EXPECT_LE(p->clearance, gap + 1e-9);
    EXPECT_GE(p->clearance, gap - 0.0013 * 120);
    for (const Finding& f : fit.findings) EXPECT_EQ(f.code, "fit-tight") << f.message;
}

TEST(Rounds, RandomPipesAndBallsKeepTheirClosedForm) {
    auto random = seeded(311);
    const PlateSet none;
    for (int round = 0; round < 200 / slowdown; ++round) {
        const double r = uniform(random, 10, 300), ball = uniform(random, 10, 150);
        const Vec3 axis =
            Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, 0.1, 1)).normalized();
        const Vec3 base(uniform(random, -500, 500), uniform(random, -500, 500), uniform(random, 0, 500));
        const double away = uniform(random, 1, 900);
        const Vec3 at = base + 200 * axis + away * axis.unitOrthogonal();
        const std::vector<FitSolid> solids = {fitSolid("rider/head", makeCapsule(at, at, ball))};
        const FitResult fit = liveFit(solids, withRounds(none, {pipe("stack", base, base + 400 * axis, r)}));
        ASSERT_EQ(fit.pairs.size(), 1U);
        if (away > r + ball)
            EXPECT_NEAR(fit.pairs[0].clearance, away - r - ball, 1e-6);
        else
            EXPECT_EQ(fit.pairs[0].state, FitState::hits);
    }
}

TEST(Rounds, WhatHasNoLengthIsLeftOut) {
    EXPECT_TRUE(withRounds({}, {pipe("dot", {0, 0, 1}, {0, 0, 1}, 50)}).plates.empty());
}

} // namespace
} // namespace slab
