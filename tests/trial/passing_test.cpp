// The route against closed forms: doors, corners, turning, ramps and crests.
#include "core/route/accessibility.h"
#include "core/route/corner.h"
#include "core/trial/passing.h"
#include "tests/evaluate/samples.h"
#include "tests/trial/rig.h"
#include <cmath>
#include <numbers>
#include <random>

namespace slab::trial {

using test::Rig;

namespace {

constexpr double inch = 25.4;

/// A body from `rear` to `front`, `half` to each side, on an axle at 0.
Rig slab(double rear, double front, double half, double top = 1200) {
    Rig rig;
    rig.wheel(0, half * 0.8, 120, WheelRole::drive);
    rig.wheel(0, -half * 0.8, 120, WheelRole::drive);
    rig.wheel(900, 0, 100, WheelRole::caster);
    rig.donor.chassis.drive = DriveKind::pivot;
    rig.box("donor/slab", Vec3(rear, -half, 150), Vec3(front, half, top));
    return rig;
}

RouteFigure part(const char* kind) {
    RouteFigure f;
    f.name = f.kind = kind;
    f.turn = std::numbers::pi / 2;
    return f;
}

/// Up an upright step of a height, mm.
RouteResult upStep(const Rig& rig, const std::optional<Balance>& balance, double height) {
    RouteFigure f = part("step");
    f.ground = *route::profileOf({{0, height}, {1500, 0}});
    return passGround(rig.stuff(), f, balance);
}

/// 60 kg of it, a third on the caster.
Rig onItsWheels() {
    Rig rig = slab(-200, 800, 300, 600);
    rig.donor.chassis.mass = 60;
    rig.donor.chassis.centre = Vec3(300, 0, 300);
    return rig;
}

RouteResult drivenOver(const Rig& rig, const route::GroundProfile& ground) {
    RouteFigure f = part("ground");
    f.ground = ground;
    return passGround(rig.stuff(), f, std::nullopt);
}

} // namespace

TEST(TrialRoute, DoorsLeaveWhatTheyAreWider) {
    std::mt19937_64 random(slab::test::seed(41));
    std::uniform_real_distribution<double> share(0, 1);
    for (int i = 0; i < 200; ++i) {
        const double half = 200 + 500 * share(random), top = 800 + 1200 * share(random);
        RouteFigure door = part("door");
        door.width = 500 + 1500 * share(random);
        door.height = 1000 + 1500 * share(random);
        door.thickness = 200 * share(random);
        door.skew = 0.5 * (share(random) - 0.5);
        const RouteResult r = passPlan(slab(-300, 900, half, top).stuff(), door);
        // Seen along the way a door of width w in a wall t thick is w cos α − t sin |α| wide.
        const double across =
            door.width * std::cos(door.skew) - door.thickness * std::sin(std::abs(door.skew)) - 2 * half;
        EXPECT_NEAR(r.margin, std::min(across, door.height - top), 1e-9);
        EXPECT_EQ(r.measure, across <= door.height - top ? "across" : "above");
        EXPECT_EQ(r.binds, "donor/slab");
        EXPECT_EQ(r.outcome, r.margin < 0          ? Outcome::fails
                             : r.margin < doorRoom ? Outcome::tight
                                                   : Outcome::passes);
    }
}

TEST(TrialRoute, RidersCountUnlessNobodySitsInIt) {
    Rig rig = slab(-300, 900, 300, 900);
    FitSolid head;
    head.name = "rider/head";
    head.group = "rider";
    head.shape = makeBoxSolid(Vec3(0, -100, 1200), Vec3(200, 100, 1427)); // M95 on a seat of 450 mm
    rig.donor.solids.push_back(head);
    RouteFigure hatch = part("hatch");
    hatch.width = 1200;
    hatch.height = 1300;
    const RouteResult seated = passPlan(rig.stuff(), hatch);
    EXPECT_NEAR(seated.margin, -127, 1e-9);
    EXPECT_EQ(seated.binds, "rider/head");
    hatch.empty = true;
    EXPECT_NEAR(passPlan(rig.stuff(), hatch).margin, 400, 1e-9);
    hatch.length = 1250; // a floor 50 mm longer than it is
    const RouteResult inside = passPlan(rig.stuff(), hatch);
    EXPECT_NEAR(inside.margin, 50, 1e-9);
    EXPECT_EQ(inside.measure, "along the floor");
}

TEST(TrialRoute, TurnsAsTheDriveLetsIt) { // worked example of the reference values, §11
    Rig rig = slab(-300, 1000, 400);
    auto turning = turningOf(rig.stuff());
    ASSERT_TRUE(turning);
    EXPECT_NEAR(turning->path.diameter(), 2154, 0.5); // pivot about the drive axle
    Rig steered = slab(-200, 1400, 400);
    steered.donor.chassis.drive = DriveKind::steered;
    steered.donor.chassis.wheelbase = 900;
    steered.donor.chassis.lock = 40 * degree;
    turning = turningOf(steered.stuff());
    ASSERT_TRUE(turning);
    EXPECT_NEAR(turning->path.radius, 1072.6, 0.05);
    EXPECT_NEAR(turning->path.outer, 2031.9, 0.05);
    EXPECT_NEAR(turning->path.inner, 672.6, 0.05);
    EXPECT_NEAR(turning->path.width(), 1359.3, 0.05);
    RouteFigure circle = part("turning_circle");
    circle.diameter = 60 * inch;
    EXPECT_NEAR(passPlan(rig.stuff(), circle).margin, 60 * inch - 2 * std::hypot(1000, 400), 1e-6);
}

TEST(TrialRoute, ATurnedDonorTakesItsWayAlong) {
    Rig rig = slab(-300, 1000, 400);
    RouteFigure door = part("door");
    door.width = 900;
    const RouteResult before = passPlan(rig.stuff(), door);
    const Mat3 turn = Eigen::AngleAxisd(std::numbers::pi / 2, Vec3::UnitZ()).toRotationMatrix();
    const Vec3 shift(700, 300, 0);
    for (FitSolid& s : rig.donor.solids)
        for (Vec3& p : s.shape.points) p = shift + turn * p;
    for (Wheel& w : rig.donor.chassis.wheels) w.at = shift + turn * w.at;
    rig.donor.chassis.axle = shift;
    rig.donor.chassis.forward = turn * Vec3::UnitX();
    EXPECT_NEAR(passPlan(rig.stuff(), door).margin, before.margin, 1e-9);
    const auto turning = turningOf(rig.stuff());
    ASSERT_TRUE(turning);
    EXPECT_NEAR(turning->path.diameter(), 2 * std::hypot(1000, 400), 1e-6);
    EXPECT_NEAR((turning->centre - shift.head<2>()).norm(), 0, 1e-9);
}

TEST(TrialRoute, CornersAgainstTheLadder) {
    // Carried round a corner of two corridors c wide, a rectangle w wide may be 2 (√2 c − w) long: 36 in and
    // 24 in give 53.82 in (reference values §11).
    RouteFigure corner = part("corner");
    corner.width = corner.wayOut = 36 * inch;
    const double most = 2 * (std::numbers::sqrt2 * 36 - 24) * inch;
    EXPECT_NEAR(most / inch, 53.82, 0.005);
    const auto tried = [&](double length) {
        return passPlan(slab(-length / 2, length / 2, 12 * inch).stuff(), corner);
    };
    EXPECT_NE(tried(most - 5).measure.find("corner"), std::string::npos);
    const RouteResult shorter = tried(most - 5), longer = tried(most + 5);
    EXPECT_NE(shorter.outcome, Outcome::fails);
    // Both corridors narrower by m: 2 (√2 (c − m) − w) is its length.
    EXPECT_NEAR(shorter.margin, 5 / (2 * std::numbers::sqrt2), 0.1);
    EXPECT_NEAR(longer.margin, -5 / (2 * std::numbers::sqrt2), 0.1);
    EXPECT_EQ(longer.outcome, Outcome::fails);
    EXPECT_EQ(longer.measure.find("shunted"), std::string::npos);
}

TEST(TrialRoute, WhatMustBeShuntedPassesWithCare) {
    Rig rig = slab(-300, 1000, 300);
    rig.donor.chassis.drive = DriveKind::steered;
    rig.donor.chassis.wheelbase = 900;
    rig.donor.chassis.lock = 20 * degree; // a turn of 2.5 m radius
    RouteFigure corner = part("corner");
    corner.width = corner.wayOut = 1100;
    const RouteResult r = passPlan(rig.stuff(), corner);
    EXPECT_EQ(r.outcome, Outcome::tight);
    EXPECT_NE(r.measure.find("shunted to and fro"), std::string::npos) << r.measure;
    EXPECT_NEAR(r.margin, 1100 - (1300.0 / 2 + 600) / std::numbers::sqrt2, 0.1); // as a ladder
    rig.donor.chassis.lock = 80 * degree;
    EXPECT_EQ(passPlan(rig.stuff(), corner).measure, "round the corner");
}

TEST(TrialRoute, CornersAreMetThereAndBack) {
    // Wide to starboard only: turning about the axle's middle, its far front corner swings out to port on the
    // way back and not on the way there.
    Rig rig = slab(-200, 700, 250);
    rig.box("donor/pannier", Vec3(-200, -700, 150), Vec3(700, -250, 600));
    RouteFigure corner = part("corner");
    corner.width = 1500, corner.wayOut = 1700;
    const auto of = [&](double width, double out, double turn) {
        const auto plan = rig.stuff().plan;
        const auto one = route::driveRound(plan->footprint, {width, out, turn}, route::pivotDrive(0), 0.1);
        return one ? one->margin : 1e9;
    };
    const double quarter = std::numbers::pi / 2;
    const double there = of(1500, 1700, quarter), back = of(1700, 1500, -quarter);
    ASSERT_GT(std::abs(there - back), 5);
    ASSERT_GT(std::min(there, back), 0);
    EXPECT_NEAR(passPlan(rig.stuff(), corner).margin, std::min(there, back), 0.2);
    corner.turn = -quarter; // the corner seen the other way
    std::swap(corner.width, corner.wayOut);
    EXPECT_NEAR(passPlan(rig.stuff(), corner).margin, std::min(there, back), 0.2);
    // Into which arm of a T it turns first may be chosen.
    RouteFigure t = part("t_turn");
    t.width = t.wayOut = 1600;
    t.length = 1e4;
    const double port = of(1600, 1600, quarter), starboard = of(1600, 1600, -quarter);
    EXPECT_NEAR(passPlan(rig.stuff(), t).margin, std::max(port, starboard), 0.2);
}

TEST(TrialRoute,
     InATTheFarEndSwingsIntoTheOtherArm) { // closed form: √(44 · 40) in for a box of 44 in by 40 in
    Rig rig = slab(-22 * inch, 22 * inch, 20 * inch);
    RouteFigure t = part("t_turn");
    t.length = 1e4;
    const double needs = std::sqrt(44.0 * 40) * inch;
    for (const double more : {-5.0, 5.0, 30.0}) {
        t.width = t.wayOut = needs + more;
        const RouteResult r = passPlan(rig.stuff(), t);
        EXPECT_NEAR(r.margin, more, 0.3);
        EXPECT_EQ(r.outcome, more < 0 ? Outcome::fails : Outcome::tight) << "only when it is shunted";
        ASSERT_EQ(r.walls.size(), 3U) << "stem, arms and the far wall";
    }
}

TEST(TrialRoute, AnEdgeDeeperThanItsWheelsIsNoQuestionOfTheDonor) {
    const Rig rig = onItsWheels();
    RouteFigure f = part("ground");
    f.ground = *route::profileOf({{2000, 0}, {0, -300}, {2000, 0}});
    const RouteResult r = passGround(rig.stuff(), f, std::nullopt);
    EXPECT_EQ(r.outcome, Outcome::fails);
    EXPECT_NE(r.measure.find("stands nowhere"), std::string::npos) << r.measure;
}

TEST(TrialRoute, DriveWheelsGripTheWholeWeight) { // W sin θ against μ times what they carry on the slope
    Rig rig = onItsWheels();
    rig.ride.friction = 0.6;
    rig.donor.chassis.centre = Vec3(700, 0, 300); // over the caster: little is left for the drive wheels
    const Stuff stuff = rig.stuff();
    const auto balance = balanceOf(stuff);
    ASSERT_TRUE(balance);
    const auto onRamp = [&](double slope) {
        RouteFigure f = part("ramp");
        f.ground = *route::profileOf({{4000, 4000 * slope}, {2000, 0}});
        return passGround(stuff, f, balance);
    };
    // Statics by hand: the drive wheels carry W (cos θ (900 - 700) + sin θ 300) / 900.
    const auto grips = [](double slope) {
        const double angle = std::atan(slope);
        return 0.6 * (std::cos(angle) * 200 + std::sin(angle) * 300) / 900 >= std::sin(angle);
    };
    ASSERT_TRUE(grips(1.0 / 8));
    ASSERT_FALSE(grips(1.0 / 5));
    EXPECT_NE(onRamp(1.0 / 8).outcome, Outcome::fails);
    const RouteResult steep = onRamp(1.0 / 5);
    EXPECT_EQ(steep.outcome, Outcome::fails);
    EXPECT_NE(steep.measure.find("of push"), std::string::npos) << steep.measure;
}

TEST(TrialRoute, CrestsAsTheBreakoverAngleSays) { // §10: L 36 in, lowest point 4 in midway, R 5 in: 25.845°
    Rig rig;
    for (const double x : {0.0, 36 * inch})
        for (const double y : {200.0, -200.0}) rig.wheel(x, y, 5 * inch);
    rig.box("donor/low", Vec3(18 * inch - 0.001, -100, 4 * inch), Vec3(18 * inch + 0.001, 100, 400));
    rig.donor.chassis.centre = Vec3(18 * inch, 0, 300);
    for (const double off : {-0.1, 0.1}) {
        const double crest = (25.845 + off) * degree;
        const auto ground = route::profileOf({{1500 * std::cos(crest / 2), 1500 * std::sin(crest / 2)},
                                              {1500 * std::cos(crest / 2), -1500 * std::sin(crest / 2)}});
        ASSERT_TRUE(ground);
        const RouteResult r = drivenOver(rig, *ground);
        EXPECT_EQ(r.margin<0, off> 0) << r.margin;
        EXPECT_NEAR(r.margin, 0, 1);
        EXPECT_EQ(r.binds, "donor/low");
    }
}

TEST(TrialRoute, AnglesAndWhatBindsThem) { // tangent form: 49 CFR 523.2; figures of reference values §10
    Rig rig;
    for (const double x : {-36 * inch, 0.0})
        for (const double y : {200.0, -200.0}) rig.wheel(x, y, 5 * inch);
    rig.box("donor/nose", Vec3(10 * inch - 0.002, -100, 3 * inch), Vec3(10 * inch, 100, 400));
    rig.box("donor/low", Vec3(-14 * inch - 0.001, -100, 4 * inch), Vec3(-14 * inch + 0.001, 100, 400));
    const auto ramps = rampsOf(rig.stuff());
    ASSERT_TRUE(ramps);
    EXPECT_NEAR(ramps->angles.approach / degree, 18.050, 0.002);
    EXPECT_NEAR(ramps->angles.breakover / degree, 27.304, 0.002);
    EXPECT_NEAR(ramps->angles.departure / degree, 90, 1e-9);
    EXPECT_EQ(ramps->approach, "donor/nose");
    EXPECT_EQ(ramps->breakover, "donor/low");
    EXPECT_EQ(ramps->departure, "");
}

TEST(TrialRoute, RampFeetAsTheApproachAngleSays) { // §10: 10 in ahead, 3 in high, R 5 in: 18.050°
    Rig rig;
    for (const double x : {-900.0, 0.0})
        for (const double y : {200.0, -200.0}) rig.wheel(x, y, 5 * inch);
    rig.box("donor/nose", Vec3(10 * inch - 0.002, -100, 3 * inch), Vec3(10 * inch, 100, 400));
    rig.donor.chassis.centre = Vec3(-450, 0, 300);
    for (const double off : {-0.1, 0.1}) {
        const double foot = (18.050 + off) * degree;
        const auto ground = route::profileOf({{3000 * std::cos(foot), 3000 * std::sin(foot)}});
        ASSERT_TRUE(ground);
        const RouteResult r = drivenOver(rig, *ground);
        EXPECT_EQ(r.margin<0, off> 0) << r.margin;
        EXPECT_NEAR(r.margin, 0, 1);
        ASSERT_TRUE(r.at);
        EXPECT_NEAR(r.at->x(), 10 * inch, 0.01);
    }
}

TEST(TrialRoute, AFloatingShellNeedsItsSlot) {
    // Donor wheels at 0 and 22 in, the shell's at -20 and 60 in, its pin at 11 in: from the level onto 1:12
    // the shell rises 1.2271 in on its pin (point contact; reference values §10), and no further with wheels.
    Rig rig;
    for (const double x : {0.0, 22 * inch})
        for (const double y : {200.0, -200.0}) rig.wheel(x, y, 50);
    rig.donor.chassis.centre = Vec3(11 * inch, 0, 300);
    for (const double x : {-20 * inch, 60 * inch}) {
        Wheel w;
        w.name = "shell wheel";
        w.at = Vec3(x, 0, 0);
        w.radius = 5;
        rig.ride.shellWheels.push_back(w);
    }
    rig.box("donor/base", Vec3(-50, -100, 120), Vec3(22 * inch, 100, 300));
    RouteFigure f = part("ground");
    f.ground = *route::profileOf({{3000, 250}});
    const auto tried = [&](double slot) {
        rig.floating.highest = slot;
        rig.floating.lowest = -slot;
        rig.floating.noseUp = 10 * degree;
        rig.floating.noseDown = -10 * degree;
        Stuff stuff = rig.stuff();
        stuff.link = FloatLink{"pin", Vec3(11 * inch, 0, 0)};
        return passGround(stuff, f, std::nullopt);
    };
    EXPECT_EQ(tried(1.25 * inch).outcome, Outcome::passes);
    const RouteResult tight = tried(1.15 * inch);
    EXPECT_EQ(tight.outcome, Outcome::fails);
    EXPECT_EQ(tight.binds, "pin");
    EXPECT_NEAR(tight.margin / inch, 1.15 - 1.2271, 0.04);
}

TEST(TrialRoute, AShellOnOneAxleHangsOnItsPin) {
    // The shell's wheel 20 in behind the donor's rear one, its pin at 11 in: onto a ramp of 1:12 it pitches
    // against the donor by θ − asin(11/31 sin θ), a triangle, wheels being nearly points.
    Rig rig;
    for (const double x : {0.0, 22 * inch})
        for (const double y : {200.0, -200.0}) rig.wheel(x, y, 1);
    rig.donor.chassis.centre = Vec3(11 * inch, 0, 300);
    Wheel w;
    w.name = "shell wheel";
    w.at = Vec3(-20 * inch, 0, 0);
    w.radius = 1;
    rig.ride.shellWheels.push_back(w);
    rig.box("donor/base", Vec3(-50, -100, 120), Vec3(22 * inch, 100, 300));
    RouteFigure f = part("ground");
    f.ground = *route::profileOf({{3000, 250}});
    const double theta = std::atan(1 / 12.0), needs = theta - std::asin(11 / 31.0 * std::sin(theta));
    const auto tried = [&](double may, Depth depth) {
        rig.floating.noseUp = may;
        rig.floating.noseDown = -may;
        Stuff stuff = rig.stuff();
        stuff.depth = depth;
        stuff.link = FloatLink{"pin", Vec3(11 * inch, 0, 0)};
        return passGround(stuff, f, std::nullopt);
    };
    const RouteResult fine = tried(needs + 0.001, Depth::full), tight = tried(needs - 0.002, Depth::full);
    EXPECT_EQ(fine.outcome, Outcome::passes);
    ASSERT_TRUE(fine.afloat);
    EXPECT_NEAR(-fine.afloat->noseDown, needs, 2e-4);
    EXPECT_EQ(tight.outcome, Outcome::fails);
    EXPECT_EQ(tight.binds, "pin");
    EXPECT_NEAR(tight.margin / inch, -0.002 * 31, 0.01);
    ASSERT_TRUE(tried(1, Depth::live).afloat); // while the hand moves too
    EXPECT_NEAR(-tried(1, Depth::live).afloat->noseDown, needs, 0.006);
}

TEST(TrialRoute, StepsStopWheels) {
    Rig rig = onItsWheels();
    for (Wheel& w : rig.donor.chassis.wheels)
        if (w.role == WheelRole::drive) w.radius = 400; // they hardly feel it
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    const auto over = [&](double height) { return upStep(rig, b, height); };
    EXPECT_EQ(over(2).outcome, Outcome::passes);
    const RouteResult high = over(100); // as high as the caster's middle
    EXPECT_EQ(high.outcome, Outcome::fails);
    EXPECT_EQ(high.binds, "wheel 3");
    // The caster carries a third of 60 kg; √(2 r h − h²) / (r − h) of that is the push it takes (§9), and two
    // driven wheels hold 0.6 of two thirds: r = 100 gives in between.
    const double ratio = 0.6 * 2; // push over the caster's load
    const double h = 100 * (1 - 1 / std::sqrt(1 + ratio * ratio));
    EXPECT_NE(over(h - 0.5).outcome, Outcome::fails);
    const RouteResult little = over(h + 5);
    EXPECT_EQ(little.outcome, Outcome::fails);
    EXPECT_NEAR(little.margin, -5, 1e-6); // that much too high
    ASSERT_TRUE(little.at);
    EXPECT_NEAR((*little.at - (rig.donor.chassis.wheels[2].at + Vec3(100, 0, 100))).norm(), 0, 1e-9);
    EXPECT_NEAR(high.margin, h - 100, 1e-6);
}

TEST(TrialRoute, WhatItsMakerLetsItClimbIsNoStop) {
    // Powered chairs of group 2 climb 40 mm at least (US CMS; HME Business, January 2019), whatever the push
    // of their wheels at rest comes to.
    Rig rig = onItsWheels();
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    const auto over = [&](double height) { return upStep(rig, b, height); };
    EXPECT_EQ(over(40).outcome, Outcome::fails);
    rig.donor.chassis.climb = 40;
    EXPECT_NE(over(40).outcome, Outcome::fails);
    const RouteResult high = over(45);
    EXPECT_EQ(high.outcome, Outcome::fails);
    EXPECT_NEAR(high.margin, -5, 1e-6);
    EXPECT_NE(high.measure.find("its maker lets it climb 40"), std::string::npos) << high.measure;
}

TEST(TrialRoute, WhoPullsItPushes) { // 200 N for a moment: over the caster's 196 N that is 28.5 mm
    Rig rig = onItsWheels();
    for (Wheel& w : rig.donor.chassis.wheels)
        if (w.role == WheelRole::drive) w.radius = 400, w.role = WheelRole::fixed; // they hardly feel it
    rig.donor.chassis.drive = DriveKind::steered;
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    const double ratio = 200 / (60 * 9.80665 / 3), h = 100 * (1 - 1 / std::sqrt(1 + ratio * ratio));
    EXPECT_NE(upStep(rig, b, h - 0.5).outcome, Outcome::fails) << upStep(rig, b, h - 0.5).measure;
    EXPECT_EQ(upStep(rig, b, h + 0.5).outcome, Outcome::fails);
}

TEST(TrialRoute, SlopesAreReadAsTheyAreWritten) {
    for (const char* text : {"1:8", "1/8", "0.125", "12.5 %", "7.1250163489 deg"}) {
        Project p = slab::test::sample("moon-crawler");
        RoutePart ramp;
        ramp.name = ramp.kind = "ramp";
        ramp.slope = text;
        ramp.rise = "300 mm";
        p.route = {ramp};
        p.ride.slope = text;
        std::vector<Finding> findings;
        const auto route = resolveRoute(p, {}, findings);
        const RideFigures ride = resolveRide(p, {}, {}, findings);
        EXPECT_TRUE(findings.empty()) << text << ": " << findings.front().message;
        ASSERT_EQ(route.size(), 1U) << text;
        EXPECT_NEAR(route.front().slope, 0.125, 1e-10) << text;
        EXPECT_NEAR(ride.slope, 0.125, 1e-10) << text;
    }
}

TEST(TrialRoute, ADriveWheelThatHangsIsNoPass) {
    // Drive axle in the middle of three: over a crest the foremost or rearmost carries with it, in a dip it
    // hangs. 1:10 down and up again under 300 mm on either side: 30 mm off the ground.
    Rig rig;
    for (const double y : {200.0, -200.0}) {
        rig.wheel(-300, y, 50);
        rig.wheel(0, y, 50, WheelRole::drive);
        rig.wheel(300, y, 50);
    }
    rig.donor.chassis.centre = Vec3(10, 0, 300);
    rig.box("donor/base", Vec3(-100, -100, 250), Vec3(100, 100, 400));
    RouteFigure f = part("ground");
    f.ground = *route::profileOf({{2000, -200}, {2000, 200}});
    const RouteResult dip = passGround(rig.stuff(), f, std::nullopt);
    ASSERT_FALSE(dip.lifts.empty());
    EXPECT_GT(dip.margin, groundRoom);
    EXPECT_EQ(dip.outcome, Outcome::tight);
    f.ground = *route::profileOf({{4000, 0.001}});
    EXPECT_EQ(passGround(rig.stuff(), f, std::nullopt).outcome, Outcome::passes);
}

TEST(TrialRoute, ASillPitchesItNoMoreThanItIsHigh) {
    // A bevel of 1:2 is 26.57° steep, but 12.7 mm under one axle of 600 mm base pitch it by 1.2° only.
    Rig rig = slab(-200, 800, 300, 600);
    rig.donor.chassis.mass = 60;
    rig.donor.chassis.centre = Vec3(300, 0, 700); // tips at no more than 23°
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    ASSERT_LT(b->least.angle, 23.5 * degree);
    RouteFigure f = part("threshold");
    f.ground = *route::threshold(12.7, 0, 0.5, 60);
    f.slope = 0.5;
    EXPECT_NE(passGround(rig.stuff(), f, b).outcome, Outcome::fails) << passGround(rig.stuff(), f, b).measure;
    f.ground = *route::profileOf({{4000, 2000}}); // as steep over its whole length it tips
    EXPECT_EQ(passGround(rig.stuff(), f, b).outcome, Outcome::fails);
}

TEST(TrialRoute, WhatFallsOverOnTheLevelIsShortBySoMuch) {
    Rig rig = slab(-200, 800, 300, 600);
    rig.donor.chassis.mass = 60;
    rig.donor.chassis.centre = Vec3(4000, 0, 300); // far ahead of its wheels
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    RouteFigure f = part("ramp");
    f.slope = 0.1;
    f.ground = *route::profileOf({{2000, 200}, {1000, 0}});
    const RouteResult r = passGround(rig.stuff(), f, b);
    EXPECT_EQ(r.outcome, Outcome::fails);
    EXPECT_LT(r.margin, -1000);
    EXPECT_GT(r.margin, -1e5);
}

TEST(TrialRoute, RampsAreBuiltTo) { // ADA 2010 405.2
    EXPECT_DOUBLE_EQ(route::mostRampSlope(300), 1.0 / 12);
    EXPECT_DOUBLE_EQ(route::mostRampSlope(6 * inch), 1.0 / 10);
    EXPECT_DOUBLE_EQ(route::mostRampSlope(3 * inch), 1.0 / 8);
    EXPECT_DOUBLE_EQ(route::mostRampSlope(3 * inch + 0.1), 1.0 / 10);
}

} // namespace slab::trial
