// Poses of rider and steering against plates: closed forms, every pose by itself, and OpenCASCADE.
#include "core/fit/floating.h"
#include "core/fit/poses.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>
#include <map>

namespace slab {
namespace {

using ::testing::HasSubstr;
using Posed = FitResult::Posed;

const FitWords plainWords;

FitResult inPoses(const std::vector<FitSolid>& rest, const std::vector<DonorPose>& poses,
                  const PlateSet& shell) {
    return withPoses(liveFit(rest, shell), {rest, posedSolids(poses), shell, plainWords});
}
FitSolid moved(FitSolid solid, const Vec3& by) {
    solid.shape = translated(solid.shape, by);
    return solid;
}
const Posed* posedPair(const FitResult& fit, const std::string& plate) {
    for (const Posed& p : fit.posed)
        if (p.pair.plate == plate) return &p;
    return nullptr;
}

// Shell 1000 x 600 x 500, t = 10: the head stands 240 from port and from starboard at rest.
TEST(PosedFit, LeaningAsideLosesWhatItMoves) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> rest = {
        fitSolid("rider/head", makeBoxSolid({-50, -50, 200}, {50, 50, 300}), 20)};
    const std::vector<DonorPose> poses = {{"leaning left 10.0°", {moved(rest[0], {0, 130, 0})}},
                                          {"leaning left 20.0°", {moved(rest[0], {0, 230, 0})}},
                                          {"leaning right 10.0°", {moved(rest[0], {0, -130, 0})}}};
    const FitResult fit = inPoses(rest, poses, shell);
    ASSERT_EQ(fit.posed.size(), 1U);
    EXPECT_EQ(fit.posed[0].words, "leaning left 20.0°");
    EXPECT_EQ(fit.posed[0].pair.plate, "hull/port");
    EXPECT_NEAR(fit.posed[0].pair.clearance, 10, 1e-9);
    EXPECT_EQ(fit.posed[0].pair.state, FitState::tight);
    EXPECT_EQ(fit.state, FitState::tight);
    EXPECT_NEAR(fit.leastClearance, 10, 1e-9);
    EXPECT_NEAR(fit.leastMargin, -10, 1e-9);
    EXPECT_EQ(bindingPair(fit), &fit.posed[0].pair);
    EXPECT_EQ(probeOf(fit).binding, "rider/head – hull/port, leaning left 20.0°");
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "pose-tight");
    EXPECT_EQ(fit.findings[0].message,
              "Leaning left 20.0°: rider/head, 10.0 mm to hull/port; wanted 20.0 mm.");
    EXPECT_THAT(fit.findings[0].about, ::testing::ElementsAre("solid:rider/head", "plate:hull/port"));
    EXPECT_THAT(fit.findings[0].remedy, HasSubstr("lean less"));
}

TEST(PosedFit, AHitSaysHowDeepAndWhichPose) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> rest = {
        fitSolid("rider/head", makeBoxSolid({-50, -50, 200}, {50, 50, 300}), 20)};
    const std::vector<DonorPose> poses = {{"leaning forward 30.0°", {moved(rest[0], {446, 0, 0})}}};
    const FitResult fit = inPoses(rest, poses, shell);
    const Posed* front = posedPair(fit, "hull/front");
    ASSERT_NE(front, nullptr);
    EXPECT_EQ(front->pair.state, FitState::hits);
    EXPECT_NEAR(front->pair.depth, 6, 1e-9); // 446 + 50 = 496; the plate begins at 490
    EXPECT_NEAR(front->pair.volume, 6 * 100 * 100, 1e-3);
    EXPECT_NEAR(probeOf(fit).clearance, -6, 1e-9);
    ASSERT_FALSE(fit.findings.empty());
    EXPECT_EQ(fit.findings[0].code, "pose-hits");
    EXPECT_EQ(fit.findings[0].severity, Severity::stop);
    EXPECT_EQ(fit.findings[0].message,
              "Leaning forward 30.0°: rider/head runs into hull/front, 6.0 mm deep.");
}

TEST(PosedFit, WhatIsAsBadAtRestIsToldOnce) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> rest = {
        fitSolid("rider/head", makeBoxSolid({-50, 180, 200}, {50, 280, 300}), 20)};
    const std::vector<DonorPose> poses = {{"leaning left 1.0°", {moved(rest[0], {0, 4, 0})}},
                                          {"leaning right 5.0°", {moved(rest[0], {0, -40, 0})}}};
    const FitResult fit = inPoses(rest, poses, shell);
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "fit-tight");
    EXPECT_NEAR(fit.leastClearance, 6, 1e-9); // of the pose all the same
    const FitResult none = inPoses(rest, {}, shell);
    EXPECT_TRUE(none == liveFit(rest, shell));
}

TEST(PosedFit, ASolidThatSeveralPosesShareIsLookedAtOnce) {
    const FitSolid head = fitSolid("rider/head", makeBoxSolid({0, 0, 0}, {1, 1, 1}));
    const FitSolid hand = fitSolid("rider/left hand", makeBoxSolid({0, 0, 0}, {1, 1, 1}));
    const auto all = posedSolids({{"a", {head, hand}}, {"b", {head, moved(hand, {1, 0, 0})}}});
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[0].words, "a");
    EXPECT_EQ(all[2].words, "b");
}

/// Solids scattered in a box, and where they stand in some poses.
struct Scattered {
    PlateSet shell;
    std::vector<FitSolid> rest;
    std::vector<DonorPose> poses;
};
template <class Random>
Scattered scattered(Random& random, int poses) {
    Scattered s;
    s.shell = boxShell(uniform(random, 700, 1200), uniform(random, 500, 900), uniform(random, 500, 900),
                       uniform(random, 3, 40));
    const auto at = [&](double x) {
        return Vec3(uniform(random, -x, x), uniform(random, -x, x), uniform(random, -x, x));
    };
    for (int i = 0; i < 4; ++i) {
        const Vec3 c = at(150) + Vec3(0, 0, 350), d = at(90);
        ConvexSolid shape = makeCapsule(c, c + d, uniform(random, 20, 70));
        if (i == 1) shape = makeCylinder(c, c + d, uniform(random, 20, 90));
        if (i == 2) {
            shape = {};
            for (int k = 0; k < 8; ++k) shape.points.push_back(c + at(110));
        }
        s.rest.push_back(fitSolid("rider/part " + std::to_string(i), shape, uniform(random, 5, 60)));
    }
    for (int k = 0; k < poses; ++k) {
        DonorPose pose{"pose " + std::to_string(k), {}};
        for (const FitSolid& solid : s.rest)
            if (uniform(random, 0, 1) < 0.7) pose.solids.push_back(moved(solid, at(260)));
        s.poses.push_back(pose);
    }
    return s;
}

TEST(PosedFit, IsTheWorstOfEveryPoseByItself) {
    auto random = seeded(411);
    for (int round = 0; round < 40 / slowdown + 1; ++round) {
        const Scattered s = scattered(random, 8);
        const FitResult fit = inPoses(s.rest, s.poses, s.shell);
        std::map<std::pair<std::string, std::string>, double> worst;
        double clearance = 1e9, margin = 1e9;
        FitState state = FitState::fits;
        const auto look = [&](const std::vector<FitSolid>& solids, bool posed) {
            for (const FitPair& p : liveFit(solids, s.shell).pairs) {
                clearance = std::min(clearance, p.clearance);
                margin = std::min(margin, marginOf(p));
                state = std::max(state, p.state);
                if (!posed || p.state == FitState::fits) continue;
                const auto [it, fresh] = worst.try_emplace({p.solid, p.plate}, marginOf(p));
                if (!fresh) it->second = std::min(it->second, marginOf(p));
            }
        };
        look(s.rest, false);
        for (const DonorPose& pose : s.poses) {
            std::vector<FitSolid> solids = s.rest;
            for (FitSolid& solid : solids)
                for (const FitSolid& there : pose.solids)
                    if (there.name == solid.name) solid = there;
            look(solids, true);
        }
        EXPECT_EQ(fit.leastClearance, clearance) << round;
        EXPECT_EQ(fit.leastMargin, margin) << round;
        EXPECT_EQ(fit.state, state) << round;
        EXPECT_EQ(probeOf(fit).margin, margin) << round;
        for (const auto& [names, least] : worst) {
            double found = 1e9;
            const FitPair* rest = pairOf(fit, names.first, names.second);
            if (rest) found = marginOf(*rest);
            for (const Posed& p : fit.posed)
                if (p.pair.solid == names.first && p.pair.plate == names.second)
                    found = std::min(found, marginOf(p.pair));
            EXPECT_EQ(found, least) << round << " " << names.first << " " << names.second;
        }
    }
}

TEST(PosedFit, TheVerdictConfirmsEveryPose) {
    auto random = seeded(412);
    int judged = 0;
    for (int round = 0; round < 3 / slowdown + 1; ++round) {
        const Scattered s = scattered(random, 6);
        const auto posed = posedSolids(s.poses);
        const PoseField field{s.rest, posed, s.shell, plainWords};
        const FitResult live = withPoses(liveFit(s.rest, s.shell), field);
        KnownPairs known;
        const FitResult fit = confirmedPoses(confirmedFit(live, s.rest, s.shell), live, field, known);
        EXPECT_TRUE(fit.confirmed) << round;
        ASSERT_EQ(fit.posed.size(), live.posed.size());
        for (std::size_t i = 0; i < fit.posed.size(); ++i) {
            const FitPair &a = live.posed[i].pair, &b = fit.posed[i].pair;
            EXPECT_TRUE(b.confirmed) << round << " " << b.solid << " " << b.plate;
            EXPECT_EQ(a.solid, b.solid);
            EXPECT_EQ(a.state, b.state);
            EXPECT_EQ(a.clearance, b.clearance);
            ++judged;
        }
        EXPECT_EQ(fit.leastClearance, live.leastClearance);
        EXPECT_EQ(fit.leastMargin, live.leastMargin);
        // What is known of the pairs need not be asked again.
        const FitResult again = confirmedPoses(confirmedFit(live, s.rest, s.shell), live, field, known);
        EXPECT_EQ(known.reused, live.posed.size());
        EXPECT_TRUE(again == fit);
    }
    EXPECT_GT(judged, 5);
}

// Head 240 below the roof, 15 of travel down: leaning takes 220 of it (upwards here), the shell the rest.
TEST(PosedFit, PosesOfRiderAndShellAddUp) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> rest = {
        fitSolid("rider/head", makeBoxSolid({-50, -50, 150}, {50, 50, 250}), 20)};
    const auto posed = posedSolids({{"leaning back 10.0°", {moved(rest[0], {0, 0, 215})}}});
    const FitResult still = withPoses(liveFit(rest, shell), {rest, posed, shell, plainWords});
    EXPECT_EQ(still.state, FitState::fits);
    EXPECT_NEAR(still.leastClearance, 25, 1e-9);
    const FloatRange range = floatRange({{"pin", false, Vec3(0, 0, 100), 10, 15, {}, {}}});
    const FloatFit fit = floatFit(still, rest, shell, range.poses, {"float"}, fitUnits, posed);
    EXPECT_EQ(fit.state, FitState::tight);
    EXPECT_NEAR(fit.leastClearance, 10, 1e-9);
    const auto top = std::find_if(fit.pairs.begin(), fit.pairs.end(),
                                  [](const FloatPair& p) { return p.pair.plate == "hull/top"; });
    ASSERT_NE(top, fit.pairs.end());
    EXPECT_EQ(top->words, "lowered 15.0 mm, leaning back 10.0°");
    EXPECT_EQ(floatFit(still, rest, shell, range.poses, {"float"}).state, FitState::fits);
}

} // namespace
} // namespace slab
