// What stands upright stands on something: decks under turntables, plates under cheeks.
#include "core/mechanisms/footing.h"
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

// A circle holds a square of side a where its radius is a / √2 or more.
TEST(Turntable, ADeckThatItsOpeningTakesWhollyIsOneStop) {
    auto random = seeded(63);
    for (int round = 0; round < 20 / slowdown; ++round) {
        const double half = uniform(random, 120, 260), hole = 2 * half * std::numbers::sqrt2;
        for (const double over : {-1.0, 1.0}) {
            Boat boat;
            boat.add("pillar", makeBox({-half, -half, 600}, {half, half, 900}));
            Turntable t = lampTable();
            t.at.z = "900 mm";
            t.diameter = std::to_string(hole - 6 + over) + " mm"; // and 3 mm all round
            boat.project.mechanisms.turntables = {t};
            boat.make();
            const Finding* small = boat.finding("turntable-deck-small");
            ASSERT_EQ(small != nullptr, over > 0) << half << "\n" << boat.told();
            if (!small) continue;
            EXPECT_EQ(boat.set.findings.size(), 1U) << boat.told();
            EXPECT_EQ(small->severity, Severity::stop);
            EXPECT_NE(small->message.find("pillar/top"), std::string::npos) << small->message;
            EXPECT_FALSE(small->remedy.empty());
            EXPECT_TRUE(boat.set.openings.empty() && boat.set.parts.empty());
            EXPECT_TRUE(boat.plate("pillar/top"));
        }
    }
}

// Feet 50 mm from the middle and 12 thick, across mouths: their inner corners (half, 50) against its radius.
TEST(Trunnion, CheeksOverAnOpenMouthAreTold) {
    const auto told = [](auto change) {
        Boat boat;
        Turntable table = lampTable();
        table.from = table.to = "0"; // held: no long sweep
        Trunnion tube = monitor();
        tube.on = "lamp";
        change(boat, table, tube);
        boat.project.mechanisms.turntables = {table};
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        EXPECT_TRUE(boat.plate("monitor/cheek port")) << boat.told();
        return boat.finding("trunnion-no-footing") != nullptr;
    };
    EXPECT_TRUE(told([](Boat&, Turntable&, Trunnion&) {})) << "a tub 394 across inside";
    EXPECT_FALSE(told([](Boat&, Turntable& t, Trunnion&) { t.sides = "12"; })) << "its lip is a disc";
    EXPECT_FALSE(told([](Boat&, Turntable& t, Trunnion&) { t.depth = "-80 mm"; })) << "its end is on top";
    EXPECT_FALSE(told([](Boat&, Turntable& t, Trunnion&) { t.diameter = "90 mm"; })) << "between its cheeks";
    // A board across the mouth that turns with it.
    EXPECT_FALSE(told([](Boat& boat, Turntable& t, Trunnion&) {
        boat.add("board", makeBox({-200, -200, 621}, {200, 200, 633}));
        t.carries = {"board/*"};
    }));
    EXPECT_TRUE(told([](Boat& boat, Turntable&, Trunnion&) {
        boat.add("board", makeBox({-200, -200, 621}, {200, 200, 633}));
    })) << "it does not turn with it";
    // Beyond the rim, of 225 for a disc and of 200 for the end of a drum that rises; feet 56 to port at most.
    const auto beside = [](const char* y, const char* sides, const char* depth) {
        return [=](Boat&, Turntable& t, Trunnion& tube) {
            t.sides = sides;
            t.depth = depth;
            tube.at.y = y;
        };
    };
    EXPECT_FALSE(told(beside("165 mm", "12", "180 mm")));
    EXPECT_TRUE(told(beside("175 mm", "12", "180 mm")));
    EXPECT_FALSE(told(beside("140 mm", "", "-80 mm")));
    EXPECT_TRUE(told(beside("150 mm", "", "-80 mm")));
    EXPECT_TRUE(told(beside("15 m", "12", "180 mm")));
    EXPECT_TRUE(told(beside("-15 m", "", "180 mm")));
    // A turntable that cannot be made: it stands still, on the deck.
    EXPECT_FALSE(told([](Boat&, Turntable& t, Trunnion&) { t.lip = "5 mm"; }));
    // Beside everything: in the air.
    EXPECT_TRUE(told([](Boat&, Turntable&, Trunnion& t) {
        t.on = "";
        t.at.y = "900 mm";
    }));
}

TEST(Trunnion, AFootStandsBesideAMouthByItsCorners) {
    using mechanisms::standsBesideMouth;
    EXPECT_TRUE(standsBesideMouth({{3, 4}, {-3, 4}}, 5));
    EXPECT_FALSE(standsBesideMouth({{3, 4}, {-3, 4}}, 5.001));
    EXPECT_TRUE(standsBesideMouth({}, 5));
    auto random = seeded(64);
    for (int i = 0; i < 200; ++i) {
        const double mouth = uniform(random, 1, 300), a = uniform(random, 0, 6.28),
                     off = uniform(random, -0.9 * mouth, 20);
        const Vec2 corner((mouth + off) * std::cos(a), (mouth + off) * std::sin(a));
        EXPECT_EQ(standsBesideMouth({corner, corner * 4 + corner.normalized() * 99}, mouth), off >= 0);
    }
}

// The highest face below a random point, of boxes that stand beside and over each other.
TEST(Trunnion, ThePlateBelowIsTheHighestThatMayBeStoodOn) {
    auto random = seeded(65);
    for (int round = 0; round < 100 / slowdown; ++round) {
        Boat boat;
        const double high = uniform(random, 650, 900), wide = uniform(random, 50, 300);
        boat.add("shed", makeBox({-wide, -wide, 600}, {wide, wide, high}));
        boat.make();
        const MechanismInput in{boat.project, boat.scope, boat.stock, boat.body, boat.rules, {}};
        const Vec3 point(uniform(random, -400, 400), uniform(random, -400, 400), uniform(random, 950, 1500));
        const bool over = std::max(std::abs(point.x()), std::abs(point.y())) < wide;
        const auto all = [](const std::string&) { return true; };
        const auto foot = mechanisms::plateBelow(in, point, Vec3::UnitZ(), 1, all);
        ASSERT_TRUE(foot);
        EXPECT_EQ(foot->plate, over ? "shed/top" : "hull/top");
        EXPECT_NEAR(foot->below, point.z() - (over ? high : 600), 1e-9);
        EXPECT_FALSE(
            mechanisms::plateBelow(in, point, Vec3::UnitZ(), 1, [](const std::string&) { return false; }));
        boat.leaveOut("shed/top");
        EXPECT_EQ(mechanisms::plateBelow(in, point, Vec3::UnitZ(), 1, all)->plate, "hull/top");
    }
}

} // namespace
} // namespace slab
