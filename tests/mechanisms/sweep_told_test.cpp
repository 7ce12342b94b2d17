// What meets is told by its cause: one finding for what turns together and each party, with figures that
// clear it. Closed forms: plane trigonometry of a box that turns past a wall.
#include "core/mechanisms/sweep_told.h"
#include "core/plates/margins.h"
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {

namespace {

using namespace mechanisms;
constexpr double degree = std::numbers::pi / 180;

FitSolid solidAt(const std::string& name, const Vec3& min, const Vec3& max, double clearance = 20) {
    return {name, name.substr(0, name.find('/')), makeBoxSolid(min, max), clearance, false, {}};
}
std::vector<const Finding*> sweepsTold(const Boat& boat) {
    std::vector<const Finding*> out;
    for (const Finding& f : boat.set.findings)
        if (f.code.rfind("sweep-", 0) == 0) out.push_back(&f);
    return out;
}
/// The figure behind some words of a text, mm.
double figureAfter(const std::string& text, const std::string& words) {
    const auto at = text.find(words);
    EXPECT_NE(at, std::string::npos) << text;
    return at == std::string::npos ? 0 : std::stod(text.substr(at + words.size()));
}

TEST(SweepTold, OneMistakeIsOneFindingForEachParty) {
    Boat boat = lampHouse();
    std::vector<FitSolid> solids;
    for (const char* name : {"head", "neck", "torso", "left arm", "right arm"})
        solids.push_back(solidAt(std::string("rider/") + name, {-400, -500, 650}, {-130, 500, 850}));
    solids.push_back(solidAt("donor/post", {120, -500, 650}, {300, 500, 850}));
    boat.make(solids);
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 2U) << boat.told();
    const std::string& rider = told[0]->message;
    EXPECT_EQ(rider.rfind("lamp stands in the rider: ", 0), 0U) << rider;
    EXPECT_NE(rider.find("; and 2 more."), std::string::npos) << "three of five solids by name: " << rider;
    EXPECT_EQ(told[1]->message.rfind("lamp stands in the donor: ", 0), 0U) << told[1]->message;
    EXPECT_EQ(told[0]->severity, Severity::stop);
    // Nothing is lost: every pair is in the checks, and every solid is named as concerned.
    for (const FitSolid& s : solids) {
        EXPECT_TRUE(std::any_of(boat.set.checks.begin(), boat.set.checks.end(), [&](const SweptCheck& c) {
            return c.fixed == s.name && c.inPlace;
        })) << s.name;
        const Finding& f = *told[s.group == "rider" ? 0 : 1];
        EXPECT_NE(std::find(f.about.begin(), f.about.end(), "solid:" + s.name), f.about.end()) << s.name;
    }
}

// A tube is no plate: its finding names the tube itself, so that it can be shown.
TEST(SweepTold, ASolidOfAMechanismIsNamed) {
    Boat boat;
    boat.project.mechanisms.trunnions = {monitor()};
    boat.make({solidAt("donor/post", {200, -500, 650}, {300, 500, 1400})});
    bool any = false;
    for (const Finding* f : sweepsTold(boat)) {
        if (f->message.find("monitor/tube") == std::string::npos) continue;
        any = true;
        EXPECT_THAT(f->about, ::testing::Contains("solid:monitor/tube")) << f->message;
        EXPECT_THAT(f->about, ::testing::Contains("mechanism:monitor")) << f->message;
    }
    EXPECT_TRUE(any) << boat.told();
}

// Near the wall at -178 the house is nearer than 20 where 150 cos a + 100 sin a > 158: from
// 33.69° - 28.79° = 4.90° to 62.48°, and so on all round.
TEST(SweepTold, StopsAreWholeDegreesWithinTheFreeRange) {
    Boat boat = lampHouse();
    boat.make({solidAt("donor/wall", {-400, -500, 650}, {-178, 500, 850})});
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    const double free = std::atan2(100, 150) - std::acos(158 / std::hypot(150, 100));
    ASSERT_NEAR(free / degree, 4.90, 0.01);
    EXPECT_NE(told[0]->remedy.find("stops at -4° and 4°"), std::string::npos) << told[0]->remedy;
    // And they clear it.
    boat = lampHouse();
    boat.project.mechanisms.turntables[0].from = "-4 deg";
    boat.project.mechanisms.turntables[0].to = "4 deg";
    boat.make({solidAt("donor/wall", {-400, -500, 650}, {-178, 500, 850})});
    EXPECT_TRUE(sweepsTold(boat).empty()) << boat.told();
}

// Under a ceiling at 880 the house (up to 900) must go 20 down and the wanted 20 more.
TEST(SweepTold, TheShiftThatIsAdvisedClearsAndNoLess) {
    const auto ceiling = [](double z) {
        return solidAt("donor/ceiling", {-400, -400, z}, {400, 400, z + 500}, 20);
    };
    Boat boat = lampHouse();
    boat.make({ceiling(880)});
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    const double down = figureAfter(told[0]->remedy, "down by at least ");
    EXPECT_NEAR(down, 900 - 880 + 20, 0.1);
    for (const double by : {down, down - 1}) { // the ceiling goes up instead: the same distance
        Boat moved = lampHouse();
        moved.make({ceiling(880 + by)});
        EXPECT_EQ(sweepsTold(moved).empty(), by == down) << by << "\n" << moved.told();
    }
}

// A post beside it, its face 170 from the axis: 20 less is what may turn.
TEST(SweepTold, TheReachThatIsAdvisedLeavesTheWantedClearance) {
    Boat boat = lampHouse();
    boat.make({solidAt("donor/post", {-400, -30, 100}, {-170, 30, 3000})});
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    EXPECT_NEAR(figureAfter(told[0]->remedy, "keep what turns within "), 150, 0.11) << told[0]->remedy;
}

// The rings of 273 stand still: that they reach 3 into a post is no matter of what turns.
TEST(SweepTold, RingsThatStandInAPostAreNotToldToTurnWithinLess) {
    Boat boat = lampHouse();
    boat.add("post", makeBox({270, -30, 600}, {330, 30, 1100}));
    boat.make();
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    EXPECT_EQ(told[0]->code, "sweep-meets");
    EXPECT_EQ(told[0]->remedy.find("keep what turns"), std::string::npos) << told[0]->remedy;
    EXPECT_NEAR(figureAfter(told[0]->remedy, "back by at least "), 3, 1e-9) << told[0]->remedy;
}

// A plate of the house that only comes near is not counted among those that meet: ahead of it a low post,
// into which its front turns; its top keeps 10 above the post and wants 20.
TEST(SweepTold, WhatOnlyComesNearIsNotCountedAsMeeting) {
    Boat boat = lampHouse();
    boat.make({solidAt("donor/post", {160, -20, 650}, {300, 20, 878}, 20)});
    const auto told = sweepsTold(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    std::size_t meets = 0, near = 0;
    for (const SweptCheck& c : boat.set.checks)
        if (c.fixed == "donor/post") ++(c.clearance < -1e-6 ? meets : near);
    ASSERT_GT(near, 0U) << boat.told();
    ASSERT_GT(meets, 1U) << boat.told();
    EXPECT_NE(told[0]->message.find(" and " + std::to_string(meets - 1) + " more meet donor/post"),
              std::string::npos)
        << told[0]->message;
    // Face to face with nothing between them: they touch.
    boat = lampHouse();
    boat.project.mechanisms.turntables[0].from = boat.project.mechanisms.turntables[0].to = "0";
    boat.make({solidAt("donor/post", {150, -20, 650}, {300, 20, 860})});
    const Finding* tight = boat.finding("sweep-tight");
    ASSERT_TRUE(tight) << boat.told();
    EXPECT_NE(tight->message.find("touch"), std::string::npos) << tight->message;
}

TEST(SweepTold, APartThatStandsInAPlateIsTold) {
    Boat boat;
    Linkage slot;
    slot.name = "float";
    slot.joint = "pin_slot";
    slot.at.x = "0";
    slot.at.y = "0";
    slot.at.z = "590 mm"; // through the deck, whose upper face is at 600
    slot.up = slot.down = "30 mm";
    slot.stock = "ply_12";
    boat.project.mechanisms.linkages = {slot};
    boat.make();
    const Finding* meets = boat.finding("sweep-meets");
    ASSERT_TRUE(meets) << boat.told();
    EXPECT_NE(meets->message.find("float/bracket meets hull/top"), std::string::npos) << meets->message;
    boat = Boat();
    slot.at.z = "350 mm";
    boat.project.mechanisms.linkages = {slot};
    boat.make();
    EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
}

// Every bracket keeps the rule by which every hole is judged: three widths, 40 in foam, a thickness at least.
TEST(SweepTold, ABracketKeepsTheLeastWebRoundItsSlot) {
    for (const auto& [kind, thickness, pin] : {std::tuple{"plywood", 6.3, 10.0},
                                               {"plywood", 12.0, 4.0},
                                               {"plywood", 18.0, 20.0},
                                               {"foam", 25.0, 10.0},
                                               {"foam", 60.0, 8.0}})
        for (const char* joint : {"pin_slot", "hinge"}) {
            Boat boat;
            boat.project.stock.sheets[0].kind = kind;
            boat.project.stock.sheets[0].thickness = std::to_string(thickness) + " mm";
            Linkage l;
            l.name = "float";
            l.joint = joint;
            l.at.z = "330 mm";
            l.pin = std::to_string(pin) + " mm";
            l.pitch_up = "3 deg";
            if (l.joint == "pin_slot") l.up = "40 mm", l.down = "30 mm";
            l.stock = "ply_12";
            boat.project.mechanisms.linkages = {l};
            boat.make();
            const Plate* bracket = boat.plate("float/bracket");
            ASSERT_TRUE(bracket) << boat.told();
            PlateSet only;
            only.plates = {*bracket};
            EXPECT_TRUE(marginFindings(only, boat.stock, {}, {}).empty()) << kind << thickness << joint;
            const double web = std::max({std::string(kind) == "foam" ? 40 : std::min(3 * (pin + 1), 40.0),
                                         10.0, thickness}),
                         travel = l.joint == "pin_slot" ? 70 : 0;
            const Box2 box = bounds(bracket->boundary.outer);
            EXPECT_NEAR(box.size().x(), pin + 1 + 2 * web, 1e-6);
            EXPECT_NEAR(box.size().y(), travel + pin + 1 + 2 * web, 1e-6);
        }
}

// Each side of a many-sided drum meets what the first did, one twelfth of a turn on: as worked out one by
// one.
TEST(SweepTold, AlikeSidesHaveTheResultsOfTheirOwnSweep) {
    Boat boat;
    Turntable t = lampTable();
    t.sides = "12";
    t.drum_stock = "ply_12";
    boat.project.mechanisms.turntables = {t};
    const FitSolid post = solidAt("donor/post", {205, -20, 300}, {300, 25, 520}, 20);
    boat.make({post});
    Motion turn;
    for (const Motion& m : boat.set.motions) turn = m;
    int sides = 0;
    for (const SweptCheck& c : boat.set.checks) {
        if (c.moving.rfind("lamp/side", 0) != 0 || c.fixed != post.name) continue;
        ++sides;
        const Plate* side = boat.plate(c.moving);
        ASSERT_TRUE(side);
        const SweepResult own = leastOver(turn, side->cells, {post.shape});
        EXPECT_NEAR(c.clearance, own.clearance, 2e-3) << c.moving;
        const Pose pose = poseAt(turn, c.at);
        double there = 1e9; // at the place that is told it is as near as is told
        for (ConvexSolid cell : side->cells) {
            for (Vec3& p : cell.points) p = pose(p);
            there = std::min(there, nearest(cell, post.shape).distance);
        }
        EXPECT_NEAR(there, c.clearance, 2e-3) << c.moving;
        const auto ranges = rangesNearer(turn, side->cells, {post.shape}, 20, 0.25 * degree);
        ASSERT_EQ(ranges.size(), c.nearIn.size()) << c.moving;
        for (std::size_t i = 0; i < ranges.size(); ++i) {
            EXPECT_NEAR(ranges[i].first, c.nearIn[i].first, 0.5 * degree) << c.moving;
            EXPECT_NEAR(ranges[i].second, c.nearIn[i].second, 0.5 * degree) << c.moving;
        }
    }
    EXPECT_EQ(sides, 12) << boat.told();
}

TEST(SweepTold, RangesAreJoinedRoundATurn) {
    const double turn = 2 * std::numbers::pi;
    EXPECT_EQ(joinedRanges({{1, 2}, {1.5, 3}, {4, 5}}, false), (MoveRanges{{1, 3}, {4, 5}}));
    const auto wrapped = joinedRanges({{-0.5, 0.5}, {6, 6.1}}, true); // 6 to 6.1 lies within -0.5 + 2 pi …
    ASSERT_EQ(wrapped.size(), 1U);
    EXPECT_NEAR(wrapped[0].first, -0.5, 1e-12);
    EXPECT_NEAR(wrapped[0].second, 0.5, 1e-12);
    EXPECT_EQ(joinedRanges({{0, turn}, {1, 2}}, true), (MoveRanges{{0, turn}}));
}

TEST(SweepTold, AlikeSolidsAreFoundByTheirTurnAndOthersAreNot) {
    auto random = seeded(21);
    for (int round = 0; round < 200; ++round) {
        Move move;
        const auto point = [&](double size) {
            return Vec3(uniform(random, -size, size), uniform(random, -size, size),
                        uniform(random, -size, size));
        };
        move.at = point(100);
        move.axis = point(1).normalized();
        std::vector<ConvexSolid> from(2), to;
        for (ConvexSolid& s : from)
            for (int i = 0; i < 6; ++i) s.points.push_back(point(300));
        const double by = uniform(random, -3.1, 3.1);
        for (ConvexSolid s : from) {
            const Pose pose = poseAt({{}, {move}}, {by});
            for (Vec3& p : s.points) p = pose(p);
            std::reverse(s.points.begin(), s.points.end());
            to.insert(to.begin(), s);
        }
        const auto found = turnBetween(move, from, to);
        ASSERT_TRUE(found) << round;
        EXPECT_NEAR(*found, by, 1e-9) << round;
        to[0].points[0] += Vec3(0.01, 0, 0);
        EXPECT_FALSE(turnBetween(move, from, to)) << round;
    }
    EXPECT_FALSE(turnBetween({}, {}, {}));
    const ConvexSolid disc = makeCylinder({0, 0, 0}, {0, 0, 10}, 50);
    EXPECT_FALSE(turnBetween({}, {disc}, {disc})) << "its middle lies on the axis";
}

// A long plate across a slab meets it at every angle: the search ends early, near the deepest all the same.
TEST(SweepTold, WhatMeetsEverywhereIsNotSearchedForLong) {
    Move turn;
    turn.from = -std::numbers::pi;
    turn.to = std::numbers::pi;
    turn.endless = true;
    const ConvexSolid arm = makeBoxSolid({-500, -6, -300}, {500, 6, 300});
    const ConvexSolid slab = makeBoxSolid({-2000, -2000, -103}, {2000, 2000, -97});
    SweepOptions brief;
    brief.stepsOnceMet = 200;
    const SweepResult r = leastOver({"arm", {turn}}, {arm}, {slab}, brief);
    EXPECT_LE(r.steps, 203);
    EXPECT_NEAR(r.clearance, -203, 1); // the way out is down: 300 - 97
    EXPECT_LE(r.bound, r.clearance);
    EXPECT_TRUE(nearerAsShown({"arm", {turn}}, {arm}, {slab}, 0));
    EXPECT_FALSE(nearerAsShown({"arm", {turn}}, {arm}, {translated(slab, {0, 0, -206})}, 0));
    EXPECT_TRUE(nearerAsShown({"arm", {turn}}, {arm}, {translated(slab, {0, 0, -206})}, 5)); // 3 below
}

} // namespace
} // namespace slab
