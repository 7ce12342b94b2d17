// Slope transitions: worked angles, the worked linkage, and vehicles driven step by step against both.
#include "core/route/angles.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::route;

namespace {

constexpr double inchMm = 25.4, toDeg = 180 / std::numbers::pi;

/// Two axles, one low point.
SideView twoAxles(double base, double radius, const Vec2& low) {
    return {{{0, radius}, {base, radius}}, {base / 2, 300}, {{low}}};
}

/// The linkage of the worked figures, inches: donor wheels 0 and 22, body wheels −20 and 60, link at 11.
Linked linkage(double radius) {
    const auto axles = [&](double a, double b) {
        return SideView{{{a * inchMm, radius}, {b * inchMm, radius}}, {(a + b) / 2 * inchMm, 300}, {}};
    };
    return {axles(0, 22), axles(-20, 60), {11 * inchMm, 200}};
}

double leastClearance(const GroundProfile& ground, const SideView& vehicle) {
    const auto got = drive(ground, vehicle, -4000, 4000);
    EXPECT_TRUE(got);
    return got ? got->clearance.height : NAN;
}

} // namespace

TEST(Angles, OfTheTable) {
    // inches; tangent form and point form (computed worked figures; definition 49 CFR 523.2)
    EXPECT_NEAR(*approachAngle(10, 3, 5) * toDeg, 18.050, 5e-4);
    EXPECT_NEAR(*approachAngle(10, 3, 0) * toDeg, 16.699, 5e-4);
    EXPECT_NEAR(*approachAngle(14, 4, 5) * toDeg, 16.784, 5e-4);
    EXPECT_NEAR(*approachAngle(14, 4, 0) * toDeg, 15.945, 5e-4);
    EXPECT_NEAR(*breakoverAngle(18, 18, 4, 5) * toDeg, 25.845, 5e-4);
    EXPECT_NEAR(*breakoverAngle(18, 18, 4, 0) * toDeg, 25.058, 5e-4);
    EXPECT_NEAR(*breakoverAngle(11, 11, 3, 6) * toDeg, 32.993, 5e-4);
    EXPECT_NEAR(*breakoverAngle(11, 11, 3, 0) * toDeg, 30.510, 5e-4);
    EXPECT_NEAR(*breakoverAngle(22, 14, 4, 5) * toDeg, 27.304, 5e-4);
    EXPECT_NEAR(*breakoverAngle(22, 14, 4, 0) * toDeg, 26.250, 5e-4);
    // 2 atan(2c / L): c 12, L 100 is 26.99°; a public calculator's example prints 27.04°, which is wrong
    EXPECT_NEAR(*breakoverAngle(50, 50, 12, 0) * toDeg, 26.99, 0.005);
    EXPECT_GT(std::abs(*breakoverAngle(50, 50, 12, 0) * toDeg - 27.04), 0.03);
    // … and its second prints 28.07°, which is right for an eighth of the wheelbase
    EXPECT_NEAR(*breakoverAngle(50, 50, 12.5, 0) * toDeg, 28.07, 0.005);
    EXPECT_NEAR(*breakoverAngle(50, 50, 12, 0), 2 * std::atan(2 * 12 / 100.0), 1e-12);
    // flat to 1:12 over L 36: 0.749 in; kerb foot 1:20 down, 1:12 up: 7.626°
    EXPECT_NEAR(*leastOverCrest(36, std::atan(1 / 12.0)), 0.749, 1e-3);
    EXPECT_NEAR(*leastOverCrest(36, std::atan(1 / 12.0)), 18 * std::tan(std::atan(1 / 12.0) / 2), 1e-12);
    EXPECT_NEAR(*breakBetween(-1 / 20.0, 1 / 12.0) * toDeg, 7.626, 5e-4);
}

TEST(Angles, PointFormIsTheSafeOne) {
    auto random = seeded(73);
    for (int round = 0; round < 300; ++round) {
        const double r = uniform(random, 20, 200), x = uniform(random, r, 600),
                     h = uniform(random, 5, 1.5 * r);
        EXPECT_LE(*approachAngle(x, h, 0), *approachAngle(x, h, r) + 1e-12);
        EXPECT_NEAR(*approachAngle(x, h, 0), std::atan(h / x), 1e-12);
        EXPECT_LE(*approachAngle(x, h * 0.9, r), *approachAngle(x, h, r));
    }
}

TEST(Angles, OfAVehicle) {
    const SideView vehicle{
        {{0, 100}, {900, 100}}, {400, 300}, {{{1200, 120}}, {{-300, 200}}, {{150, 60}, {750, 60}}}};
    const auto got = rampAngles(vehicle);
    ASSERT_TRUE(got);
    EXPECT_NEAR(got->approach, *approachAngle(300, 120, 100), 1e-12);
    EXPECT_NEAR(got->departure, *approachAngle(300, 200, 100), 1e-12);
    EXPECT_NEAR(got->breakover, *breakoverAngle(450, 450, 60, 100),
                1e-9); // worst in the middle of a level belly
    EXPECT_NEAR(got->breakoverAt.x(), 450, 0.1);
    // a plate beside a wheel, inside of it as seen, bars nothing
    SideView arch = vehicle;
    arch.undersides = {{{850, 40}, {950, 40}}};
    EXPECT_NEAR(rampAngles(arch)->approach, std::numbers::pi / 2, 1e-12);
}

TEST(Standing, OnAnySlope) {
    auto random = seeded(74);
    for (int round = 0; round < 200; ++round) {
        const double slope = uniform(random, -0.4, 0.4), lean = std::atan(slope);
        const double base = uniform(random, 300, 1200), r = uniform(random, 0, 150),
                     h = uniform(random, 20, 200);
        const SideView vehicle = twoAxles(base, r, {uniform(random, -200, base + 200), h});
        const GroundProfile ground = slopeBreak(slope, slope).value();
        const auto pose = standAt(ground, vehicle, uniform(random, -2000, 2000));
        ASSERT_TRUE(pose);
        EXPECT_NEAR(pose->pitch, lean, 1e-12);
        EXPECT_NEAR(pose->gaps[0] + pose->gaps[1], 0, 1e-9);
        EXPECT_NEAR(gapUnder(ground, vehicle, *pose).height, h / std::cos(lean), 1e-8);
    }
}

TEST(Standing, WheelsTouchOnRoughGround) {
    auto random = seeded(75);
    int stood = 0;
    for (int round = 0; round < 200 / slowdown; ++round) {
        std::vector<Stretch> way;
        for (int i = 0; i < 6; ++i) {
            const double run = uniform(random, 50, 500);
            way.push_back({run, run * uniform(random, -0.3, 0.3)});
        }
        const GroundProfile ground = profileOf(way).value();
        SideView vehicle{{{0, uniform(random, 30, 150)}, {500, uniform(random, 30, 150)}}, {300, 300}, {}};
        if (round % 2) vehicle.axles.push_back({800, uniform(random, 30, 150)});
        const auto pose = standAt(ground, vehicle, uniform(random, -600, 1500));
        ASSERT_TRUE(pose);
        ++stood;
        int touching = 0;
        for (std::size_t i = 0; i < vehicle.axles.size(); ++i) {
            const Axle& a = vehicle.axles[i];
            const Vec2 centre = pose->place({a.x, a.radius});
            const double gap = centre.y() - wheelOn(ground, a.radius, centre.x()).height;
            EXPECT_GE(gap, -1e-6);
            EXPECT_NEAR(std::max(gap, 0.0), pose->gaps[i], 1e-9);
            touching += gap < 1e-6;
        }
        EXPECT_GE(touching, 2);
    }
    EXPECT_GT(stood, 0);
}

TEST(Driving, TouchesJustAtTheClosedAngles) {
    auto random = seeded(76);
    for (int round = 0; round < 10 / slowdown + 1; ++round) {
        const double base = uniform(random, 500, 1200), r = uniform(random, 50, 150);
        const double at = uniform(random, 0.35, 0.65) * base, h = uniform(random, 60, 120);
        const SideView belly = twoAxles(base, r, {at, h});
        const double over = *breakoverAngle(at, base - at, h, r);
        const double half = over / 2;
        for (double more : {-0.02, 0.02}) { // a crest of that angle, shared evenly
            const double slope = std::tan(half + more / 2);
            EXPECT_EQ(leastClearance(slopeBreak(slope, -slope).value(), belly) < 0, more > 0);
        }
        const double touch = leastClearance(slopeBreak(std::tan(half), -std::tan(half)).value(), belly);
        EXPECT_NEAR(touch, 0, 0.05) << base << " " << r << " " << at << " " << h;
        const double ahead = r + uniform(random, 50, 300);
        const SideView nose = twoAxles(base, r, {base + ahead, h});
        const double approach = *approachAngle(ahead, h, r);
        EXPECT_NEAR(leastClearance(slopeBreak(0, std::tan(approach)).value(), nose), 0, 0.05);
        EXPECT_LT(leastClearance(slopeBreak(0, std::tan(approach + 0.02)).value(), nose), -0.1);
        EXPECT_GT(leastClearance(slopeBreak(0, std::tan(approach - 0.02)).value(), nose), 0.1);
    }
}

TEST(Driving, CrestOfTheTable) {
    // flat → 1:12 down, L 36 in: midway between points of contact 0.749 in are needed. They stand nearest
    // there when both are as far from the crest; the sagitta is then L/2 tan(θ/2), measured square to the
    // wheelbase.
    const double base = 36 * inchMm, c = *leastOverCrest(base, std::atan(1 / 12.0));
    const GroundProfile crest = slopeBreak(0, -1 / 12.0).value();
    EXPECT_NEAR(leastClearance(crest, twoAxles(base, 0, {base / 2, c})), 0, 0.02);
    EXPECT_NEAR(leastClearance(crest, twoAxles(base, 0, {base / 2, c + 1})), 1, 0.02);
}

TEST(Driving, RefinedUntilItStays) {
    const SideView vehicle{
        {{0, 160}, {560, 75}}, {200, 350}, {{{60, 70}, {500, 70}}, {{700, 90}}, {{-200, 100}}}};
    std::vector<GroundProfile> grounds{kerbRamp(1 / 20.0, 1 / 12.0, 152.4).value(), hump(3700, 76).value(),
                                       threshold(12.7, 6.35, 0.5, 100).value(), profileOf({{0, 50}}).value()};
    for (const GroundProfile& ground : grounds) {
        const auto usual = drive(ground, vehicle, -1500, 6000),
                   fine = drive(ground, vehicle, -1500, 6000, 0.0005);
        ASSERT_TRUE(usual && fine);
        std::printf("clearance %.4f, finer %.4f, %d and %d steps\n", usual->clearance.height,
                    fine->clearance.height, usual->steps, fine->steps);
        EXPECT_NEAR(usual->clearance.height, fine->clearance.height, 0.1);
        EXPECT_NEAR(usual->noseUp.value * 560, fine->noseUp.value * 560, 0.1);
        EXPECT_NEAR(usual->noseDown.value * 560, fine->noseDown.value * 560, 0.1);
        EXPECT_LE(usual->change, 0.02);
        // no even step comes lower than what was found
        for (const SidePose& pose : fine->poses)
            EXPECT_GE(gapUnder(ground, vehicle, pose).height, fine->clearance.height - 0.001);
        EXPECT_FALSE(usual->blocked());
        ASSERT_EQ(usual->under.size(), 3u);
        double least = 1e9;
        for (std::size_t c = 0; c < 3; ++c) {
            SideView alone = vehicle; // each chain as if it were the only one
            alone.undersides = {vehicle.undersides[c]};
            EXPECT_NEAR(drive(ground, alone, -1500, 6000)->clearance.height, usual->under[c].height, 0.05);
            least = std::min(least, usual->under[c].height);
        }
        EXPECT_EQ(least, usual->clearance.height);
    }
    // a caster of 75 mm before a step of 80 is blocked; backwards the wheel of 160 comes first and climbs,
    // but the caster then does not
    const auto step = drive(profileOf({{0, 80}}).value(), vehicle, -1500, 1500);
    ASSERT_TRUE(step);
    EXPECT_FALSE(step->climbs[0].blocked);
    EXPECT_TRUE(step->climbs[1].blocked);
    EXPECT_TRUE(step->blocked());
}

TEST(Driving, TheMiddleWheelLifts) {
    // three points of contact 500 mm apart into a hollow of 5 %: the middle one is highest off the ground
    // when it stands at the break, half of what the front has risen: 12.5 mm, less what 500 mm along a slope
    // lose in plan
    const SideView vehicle{{{0, 0}, {500, 0}, {1000, 0}}, {450, 200}, {}};
    const auto got = drive(slopeBreak(0, 0.05).value(), vehicle, -2500, 2500);
    ASSERT_TRUE(got);
    EXPECT_NEAR(got->lifts[1].value, 12.5, 0.02);
    EXPECT_NEAR(got->lifts[1].x, -500, 2);
    EXPECT_NEAR(got->lifts[0].value, 0, 1e-9);
    EXPECT_FALSE(got->tips);
    // over a crest it stands on the middle one, and first the front hangs, then the rear
    const auto crest = drive(slopeBreak(0, -0.05).value(), vehicle, -2500, 2500);
    ASSERT_TRUE(crest);
    EXPECT_GT(crest->lifts[2].value, 20);
    EXPECT_NEAR(crest->lifts[1].value, 0, 1e-9);
}

TEST(LinkTravel, TheWorkedLinkage) {
    // z_body − z_donor in inches at the link, relative pitch in degrees (computed worked figures)
    const Linked linked = linkage(0);
    const auto paper = [&](double before, double behind) {
        return linkTravelOnPaper(slopeBreak(before, behind).value(), linked, -3000, 3000).value();
    };
    const LinkTravel foot = paper(0, 1 / 12.0);
    EXPECT_NEAR(foot.up.value / inchMm, 1.2271, 5e-5);
    EXPECT_NEAR(foot.up.x / inchMm, -22, 1e-6); // donor's rear wheel 22 before the break
    EXPECT_NEAR(foot.down.value, 0, 1e-9);
    EXPECT_NEAR(foot.noseDown.value * toDeg, -1.19, 0.005);
    EXPECT_NEAR(foot.noseUp.value * toDeg, 2.27, 0.005);
    const LinkTravel gutter = paper(-1 / 20.0, 1 / 12.0);
    EXPECT_NEAR(gutter.up.value / inchMm, 1.9633, 5e-5);
    EXPECT_NEAR(gutter.down.value, 0, 1e-9);
    EXPECT_NEAR(gutter.noseDown.value * toDeg, -1.90, 0.005);
    EXPECT_NEAR(gutter.noseUp.value * toDeg, 3.63, 0.005);
    const LinkTravel top = paper(1 / 12.0, 0);
    EXPECT_NEAR(top.down.value / inchMm, -1.2271, 5e-5);
    EXPECT_NEAR(top.up.value, 0, 1e-9);
}

TEST(LinkTravel, RigidIsOnPaperButForWhatIsLostInPlan) {
    // a length at θ loses its 1 − cos θ in plan, worth that times the change of slope in height
    for (const auto& [before, behind] :
         {std::pair(0.0, 1 / 12.0), std::pair(-1 / 20.0, 1 / 12.0), std::pair(1 / 12.0, 0.0)}) {
        const GroundProfile ground = slopeBreak(before, behind).value();
        Linked linked = linkage(0);
        linked.link.y() = 0; // a link up high also leans forward and aft with the donor
        const auto paper = linkTravelOnPaper(ground, linked, -3000, 3000);
        const auto rigid = linkTravel(ground, linked, -3000, 3000);
        const auto fine = linkTravel(ground, linked, -3000, 3000, 5e-4);
        ASSERT_TRUE(paper && rigid && fine);
        std::printf("paper %.4f … %.4f, rigid %.4f … %.4f mm, %d steps\n", paper->down.value, paper->up.value,
                    rigid->down.value, rigid->up.value, rigid->steps);
        const double steepest = std::max(std::abs(std::atan(before)), std::atan(behind));
        const double lost = (1 - std::cos(steepest)) * std::abs(behind - before);
        EXPECT_NEAR(rigid->up.value, paper->up.value, (80 + 22) * inchMm * lost);
        EXPECT_NEAR(rigid->down.value, paper->down.value, (80 + 22) * inchMm * lost);
        EXPECT_NEAR(rigid->noseUp.value, paper->noseUp.value, 2 * lost);
        EXPECT_NEAR(rigid->noseDown.value, paper->noseDown.value, 2 * lost);
        EXPECT_NEAR(rigid->up.value, fine->up.value, 0.1);
        EXPECT_NEAR(rigid->down.value, fine->down.value, 0.1);
    }
    const auto quick = quickLinkTravel(slopeBreak(0, 1 / 12.0).value(), linkage(0), -3000, 3000);
    ASSERT_TRUE(quick); // a step of 94 mm at a change of slope of 1/12 misses no more than this
    EXPECT_NEAR(quick->up.value,
                linkTravel(slopeBreak(0, 1 / 12.0).value(), linkage(0), -3000, 3000)->up.value, 94 / 12.0);
    // wheels round the corner off: no more travel than points
    const GroundProfile ground = slopeBreak(0, 1 / 12.0).value();
    EXPECT_LE(linkTravel(ground, linkage(150), -3000, 3000)->up.value,
              linkTravel(ground, linkage(0), -3000, 3000)->up.value + 0.05);
}

TEST(Crossings, AQuickDriveComesNearTheThoroughOne) {
    for (const double slope : {1 / 20.0, 1 / 12.0, 1 / 8.0}) {
        const GroundProfile ground = kerbRamp(1 / 20.0, slope, 150).value();
        SideView vehicle = twoAxles(900, 100, {400, 60});
        vehicle.undersides = {{{-300, 90}, {400, 60}}, {{400, 60}, {1300, 120}}};
        const auto quick = quickDrive(ground, vehicle, -2000, 4000);
        const auto whole = drive(ground, vehicle, -2000, 4000, 0.02, false);
        ASSERT_TRUE(quick && whole);
        EXPECT_NEAR(quick->clearance.height, whole->clearance.height, 0.5);
        EXPECT_NEAR(quick->noseUp.value, whole->noseUp.value, 0.002);
        EXPECT_EQ(quick->climbs.size(), whole->climbs.size());
        const auto each = drive(ground, vehicle, -2000, 4000);
        ASSERT_TRUE(each);
        EXPECT_NEAR(each->clearance.height, whole->clearance.height, 0.02);
    }
    EXPECT_EQ(quickDrive(kerbRamp(0, 0.1, 50).value(), twoAxles(900, 100, {400, 60}), 0, 1, 0).error().code,
              "out-of-range");
}

TEST(Crossings, Refusals) {
    const GroundProfile ground = slopeBreak(0, 0.1).value();
    const SideView good = twoAxles(900, 100, {400, 60});
    SideView bad = good;
    bad.axles.resize(1);
    EXPECT_EQ(drive(ground, bad, 0, 1).error().code, "axles-few");
    EXPECT_EQ(rampAngles(bad).error().code, "axles-few");
    bad = good;
    bad.axles[1].x = 0;
    EXPECT_EQ(standAt(ground, bad, 0).error().code, "axles-alike");
    bad = good;
    bad.axles[0].radius = -1;
    EXPECT_EQ(standAt(ground, bad, 0).error().code, "out-of-range");
    EXPECT_EQ(standAt({}, good, 0).error().code, "profile-short");
    EXPECT_EQ(drive(ground, good, 5, 5).error().code, "out-of-range");
    EXPECT_EQ(drive(ground, good, 0, 5, 0).error().code, "out-of-range");
    EXPECT_EQ(approachAngle(-1, 0, 0).error().code, "out-of-range");
    EXPECT_EQ(approachAngle(50, 100, 100).error().code, "out-of-range");
    EXPECT_EQ(breakoverAngle(100, -1, 10, 10).error().code, "out-of-range");
    EXPECT_EQ(breakBetween(NAN, 0).error().code, "out-of-range");
    EXPECT_EQ(leastOverCrest(0, 0.1).error().code, "out-of-range");
    bad = good;
    bad.undersides = {{{400, -5}}};
    EXPECT_EQ(rampAngles(bad).error().code, "out-of-range");
    // a cliff that no pitch under 75° spans
    EXPECT_EQ(standAt(profileOf({{0, 5000}}).value(), good, -450).error().code, "no-stance");
    EXPECT_EQ(linkTravel(ground, {bad, good, {}}, 0, 0).error().code, "out-of-range");
    EXPECT_EQ(linkTravelOnPaper(profileOf({{0, 50}}).value(), linkage(0), 0, 1).error().code,
              "profile-order");
    SideView three = good;
    three.axles.push_back({2000, 100});
    EXPECT_EQ(linkTravelOnPaper(ground, {three, good, {}}, 0, 1).error().code, "axles-few");
}
