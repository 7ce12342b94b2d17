// What moves on a floating shell: closed forms for an arm that turns and for what stands still on it.
#include "core/fit/float_moving.h"
#include "core/fit/swept.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using ::testing::HasSubstr;

FloatJoint slotted(double up, double down) {
    return {"float", false, Vec3(0, 0, 100), up, down, {}, {}};
}

/// A ball at (radius, 0, height) on an upright axis through the origin, which turns all the way round; or one
/// that stands still.
MechanismSet ballAfloat(double radius, double height, double ball, bool turns) {
    MechanismSet set;
    Move turn;
    turn.endless = true;
    turn.from = -std::numbers::pi;
    turn.to = std::numbers::pi;
    if (turns) set.motions = {{"table", {turn}}};
    set.solids = {
        {"table", "table/ball", makeCapsule({radius, 0, height}, {radius, 0, height}, ball), turns ? 0 : -1}};
    return set;
}

FloatFit allAfloat(MechanismSet set, const std::vector<FitSolid>& solids, double up, double down) {
    const PlateSet shell = boxShell(3000, 2000, 2000, 12);
    set.floating = floatRange({slotted(up, down)});
    set = sweepMechanisms(set, shell, solids, fitUnits);
    const FitResult rest = withSwept(liveFit(solids, shell), set, solids, shell);
    const std::vector<std::string> names = {"float"};
    const FloatFit shown = floatFit(rest, solids, shell, set.floating.poses, names);
    const FloatField field{
        rest,
        solids,
        shell,
        shell,
        set,
        names,
        fitUnits,
        {{"float", FloatTravel::Way::down, down}, {"float", FloatTravel::Way::up, up}},
        [&](const FloatTravel& t, double least) {
            return floatRange({t.way == FloatTravel::Way::down ? slotted(up, least) : slotted(least, down)})
                .poses;
        }};
    return floatAll(shown, field);
}

TEST(FloatMoving, WhatStandsStillSinksOntoTheDonor) {
    // Underside at 500 - 30 = 470, top of the foot at 445: 25 apart; lowered 60 mm, 35 in it.
    const std::vector<FitSolid> foot = {
        fitSolid("donor/foot", makeBoxSolid({-100, -100, 100}, {100, 100, 445}), 20)};
    const FloatFit fit = allAfloat(ballAfloat(0, 500, 30, false), foot, 10, 60);
    EXPECT_EQ(fit.state, FitState::hits);
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "float-hits");
    EXPECT_EQ(fit.findings[0].message, "Lowered 60.0 mm: table/ball runs into donor/foot, 35.0 mm deep.");
    EXPECT_THAT(fit.findings[0].about,
                ::testing::ElementsAre("solid:donor/foot", "mechanism:table", "mechanism:float"));
    EXPECT_THAT(fit.findings[0].remedy, HasSubstr("Let linkage float sink no more than 5.0 mm,"));
}

TEST(FloatMoving, WhatTurnsIsTriedAllTheWayRoundInEveryPose) {
    // Shown at +x; the post stands at -x, its top at 445: met when turned by 180 degrees and lowered.
    const std::vector<FitSolid> post = {
        fitSolid("donor/post", makeBoxSolid({-450, -50, 100}, {-350, 50, 445}), 20)};
    const FloatFit fit = allAfloat(ballAfloat(400, 500, 30, true), post, 10, 60);
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "float-hits");
    EXPECT_THAT(fit.findings[0].message, HasSubstr("Lowered 60.0 mm, turned "));
    ASSERT_FALSE(fit.pairs.empty());
    double deepest = 0;
    for (const FloatPair& p : fit.pairs) deepest = std::max(deepest, p.pair.depth);
    EXPECT_NEAR(deepest, 35, 0.02 * 35) << "found to 2 %";
    EXPECT_THAT(fit.findings[0].remedy, HasSubstr("sink no more than 5.0 mm,"));
}

TEST(FloatMoving, WhatMeetsAtRestIsToldByItsOwnFinding) {
    const std::vector<FitSolid> foot = {
        fitSolid("donor/foot", makeBoxSolid({-100, -100, 100}, {100, 100, 480}), 20)};
    EXPECT_TRUE(allAfloat(ballAfloat(0, 500, 30, false), foot, 10, 60).findings.empty());
}

TEST(FloatMoving, RandomTravelsKeepTheClosedForm) {
    auto random = seeded(733);
    for (int round = 0; round < 40 / slowdown; ++round) {
        const double height = uniform(random, 420, 700), ball = uniform(random, 10, 60);
        const double top = uniform(random, 150, 300), down = uniform(random, 5, 200);
        const double wanted = uniform(random, 1, 50);
        const std::vector<FitSolid> foot = {
            fitSolid("donor/foot", makeBoxSolid({-100, -100, 100}, {100, 100, top}), wanted)};
        const FloatFit fit = allAfloat(ballAfloat(0, height, ball, round % 2 == 0), foot, 0, down);
        const double rest = height - ball - top, gap = rest - down;
        ASSERT_EQ(fit.findings.size(), rest > wanted && gap < wanted ? 1U : 0U);
        if (fit.findings.empty()) continue;
        EXPECT_EQ(fit.findings[0].code, gap < 0 ? "float-hits" : "float-tight");
        const double most = std::floor((rest - wanted) / 0.1 + 1e-6) * 0.1;
        EXPECT_THAT(fit.findings[0].remedy, HasSubstr("no more than " + printLength(most, fitUnits)));
    }
}

} // namespace
} // namespace slab
