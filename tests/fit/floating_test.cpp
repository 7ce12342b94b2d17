// A floating shell over its chassis: closed forms for a box in a box.
#include "core/fit/floating.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using ::testing::HasSubstr;

constexpr double degree = std::numbers::pi / 180;

FloatJoint pin(double x, double z, double up, double down) {
    return {"pin", false, Vec3(x, 0, z), up, down, {}, {}};
}
FloatJoint hinge(double x, double z, double up, double down) {
    return {"hinge", true, Vec3(x, 0, z), 0, 0, up, down};
}

FloatFit afloat(const std::vector<FitSolid>& solids, const PlateSet& shell, const FloatRange& range) {
    return floatFit(liveFit(solids, shell), solids, shell, range.poses, {"float"});
}

const FloatPair* find(const FloatFit& fit, const std::string& plate) {
    for (const FloatPair& p : fit.pairs)
        if (p.pair.plate == plate) return &p;
    return nullptr;
}

TEST(Floating, BoxInBoxLosesTheTravel) {
    // Shell 1000 x 600 x 500, t = 10; donor from z = 60 to 300: floor 50 below it, top 190 above it.
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> donor = {
        fitSolid("donor/base", makeBoxSolid({-350, -200, 60}, {350, 200, 300}), 45)};
    const FloatFit fit = afloat(donor, shell, floatRange({pin(0, 100, 40, 15)}));
    ASSERT_NE(find(fit, "hull/floor"), nullptr);
    EXPECT_NEAR(find(fit, "hull/floor")->pair.clearance, 50 - 40, 1e-9) << "the shell rises to it";
    EXPECT_EQ(find(fit, "hull/floor")->pair.state, FitState::tight);
    EXPECT_EQ(find(fit, "hull/floor")->words, "raised 40.0 mm");
    EXPECT_NEAR(fit.leastClearance, 10, 1e-9);
    EXPECT_NEAR(fit.leastMargin, 10 - 45, 1e-9);
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "float-tight");
    EXPECT_EQ(fit.findings[0].message, "Raised 40.0 mm: hull/floor, 10.0 mm to donor/base; wanted 45.0 mm.");
    EXPECT_THAT(fit.findings[0].about,
                ::testing::ElementsAre("solid:donor/base", "plate:hull/floor", "mechanism:float"));
}

TEST(Floating, SinkingOntoTheDonorIsAHitAndSaysHowDeep) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> donor = {
        fitSolid("donor/base", makeBoxSolid({-350, -200, 100}, {350, 200, 480}), 20)};
    // At rest 10 to the top (tight); lowered by 25 it stands 15 in it; the whole thickness is 10.
    const FloatFit fit = afloat(donor, shell, floatRange({pin(0, 100, 0, 25)}));
    const FloatPair* top = find(fit, "hull/top");
    ASSERT_NE(top, nullptr);
    EXPECT_EQ(top->pair.state, FitState::hits);
    EXPECT_NEAR(top->pair.depth, 15, 1e-9);
    ASSERT_FALSE(fit.findings.empty());
    EXPECT_EQ(fit.findings[0].code, "float-hits");
    EXPECT_EQ(fit.findings[0].severity, Severity::stop);
    EXPECT_EQ(fit.findings[0].message, "Lowered 25.0 mm: hull/top runs into donor/base, 15.0 mm deep.");
}

TEST(Floating, PitchAboutAHingeTakesCornersRoundTheirCircle) {
    // Hinge at the back; nose down by a, the donor's front upper corner turns up about it: from height
    // z to h + r sin(b + a), where r and b are the corner's distance and slope from the hinge.
    const PlateSet shell = boxShell(1200, 600, 600, 10);
    const std::vector<FitSolid> donor = {
        fitSolid("donor/base", makeBoxSolid({-350, -200, 100}, {350, 200, 300}), 400)};
    const double a = 6 * degree, hx = -400, hz = 150;
    const FloatFit fit = afloat(donor, shell, floatRange({hinge(hx, hz, 0, a)}));
    const double r = std::hypot(350 - hx, 300 - hz), b = std::atan2(300 - hz, 350 - hx);
    ASSERT_NE(find(fit, "hull/top"), nullptr);
    EXPECT_NEAR(find(fit, "hull/top")->pair.clearance, 590 - (hz + r * std::sin(b + a)), 1e-9);
    EXPECT_EQ(find(fit, "hull/top")->words, "nose down 6.0°");
    // Its rear lower corner comes down towards the floor, as far as its own circle takes it.
    const double low = std::hypot(-350 - hx, 100 - hz), slope = std::atan2(100 - hz, -350 - hx);
    const double rest = 100 - 10, turned = hz + low * std::sin(slope + a) - 10;
    const double middle = hz + low * std::sin(slope + a / 2) - 10;
    EXPECT_NEAR(find(fit, "hull/floor")->pair.clearance, std::min(turned, middle), 1e-9)
        << "at rest " << rest;
}

TEST(Floating, WhatIsAsBadAtRestIsToldOnce) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const std::vector<FitSolid> donor = {
        fitSolid("donor/base", makeBoxSolid({-350, -200, 20}, {350, 200, 300}), 20)};
    EXPECT_TRUE(afloat(donor, shell, floatRange({pin(0, 100, 5, 0)})).findings.empty())
        << "the floor is too near at rest already";
    EXPECT_TRUE(afloat(donor, shell, {}).pairs.empty());
}

TEST(Floating, EqualsMovingThePlatesOnRandomShells) {
    auto random = seeded(82);
    for (int round = 0; round < 60 / slowdown; ++round) {
        PlateSet shell =
            boxShell(uniform(random, 800, 1400), uniform(random, 500, 800), uniform(random, 500, 900), 12);
        std::vector<FitSolid> solids;
        for (int i = 0; i < 4; ++i) {
            const Vec3 at(uniform(random, -400, 400), uniform(random, -200, 200), uniform(random, 60, 500));
            const Vec3 size(uniform(random, 20, 250), uniform(random, 20, 150), uniform(random, 20, 150));
            solids.push_back(fitSolid("donor/" + std::to_string(i),
                                      i % 2 ? makeBoxSolid(at, at + size)
                                            : makeCylinder(at, at + Vec3(0, size.y(), 0), size.x() / 2),
                                      uniform(random, 5, 60)));
        }
        const FloatRange range =
            floatRange({hinge(-300, 200, uniform(random, 0, 0.2), uniform(random, 0, 0.2))});
        const FloatFit fit = afloat(solids, shell, range);
        double least = 1e9;
        for (const FloatPose& pose : range.poses) {
            PlateSet moved = shell;
            moved.plates.ownEach([&](Plate& plate) {
                for (ConvexSolid& cell : plate.cells)
                    for (Vec3& p : cell.points) p = pose.shell(p);
            });
            for (const FitPair& p : liveFit(solids, moved).pairs) {
                least = std::min(least, p.clearance);
                if (p.state == FitState::fits) continue;
                double worst = 1e9;
                for (const FloatPair& q : fit.pairs)
                    if (q.pair.solid == p.solid && q.pair.plate == p.plate) worst = marginOf(q.pair);
                EXPECT_LE(worst, marginOf(p) + 1e-6) << p.solid << " " << p.plate;
            }
        }
        if (!range.poses.empty()) {
            EXPECT_NEAR(fit.leastClearance, least, 1e-6);
        }
    }
}

} // namespace
} // namespace slab
