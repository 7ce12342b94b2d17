// What is hollow of a drum and its lip is room: for people, for what stands still in it, and for what dips
// in.
#include "tests/mechanisms/boat.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double chord = 0.45; ///< mm that a stave's inside stands into a round room of 200

FitSolid pole(double radius, double low, double high, double clearance) {
    return {"donor/pole", "donor", makeCylinder({0, 0, low}, {0, 0, high}, radius), clearance, false, {}};
}

Boat withDrum(const std::string& depth, const std::string& sides) {
    Boat boat;
    Turntable t = lampTable();
    t.depth = depth;
    t.sides = sides;
    t.from = t.to = "0"; // held: no long search for what helps
    boat.project.mechanisms.turntables = {t};
    return boat;
}

TEST(TurntableMouth, ALipThatIsARingLetsAPoleThrough) {
    const double room = 200 * std::cos(std::numbers::pi / 8) - 12; // within eight sides of 12 mm
    for (const auto& [sides, inside] : {std::pair("8", room), std::pair("", 197.0)}) {
        Boat boat = withDrum("-400 mm", sides);
        boat.make({pole(100, 200, 800, 20)});
        EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
        EXPECT_FALSE(boat.finding("sweep-tight")) << boat.told();
        boat.make({pole(inside - 15, 200, 800, 20)});
        for (const char* part : {"lamp/lip", "lamp/drum"}) {
            const SweptCheck* near = boat.check(part, "donor/pole");
            ASSERT_TRUE(near) << part << boat.told();
            EXPECT_NEAR(near->clearance, 15, chord) << part;
            EXPECT_LE(near->clearance, 15 + 1e-3) << part;
        }
        boat.make({pole(inside + 5, 200, 800, 20)});
        EXPECT_TRUE(boat.finding("sweep-meets")) << boat.told();
    }
}

TEST(TurntableMouth, WhereAPlateIsItIsClosed) {
    for (const char* sides : {"8", ""}) { // its top at 600 + 24 + 300 at most
        Boat up = withDrum("-300 mm", sides);
        up.make({pole(50, 200, 1000, 20)});
        EXPECT_TRUE(up.finding("sweep-meets")) << up.told();
    }
    Boat disc = withDrum("180 mm", "8"); // on a drum of plates that hangs
    disc.make({pole(50, 610, 800, 20)});
    EXPECT_TRUE(disc.finding("sweep-meets")) << disc.told();
    Boat tub = withDrum("180 mm", "");
    tub.make({pole(50, 500, 800, 20)});
    EXPECT_FALSE(tub.finding("sweep-meets")) << tub.told();
    tub.make({pole(50, 430, 800, 20)}); // through its bottom
    EXPECT_TRUE(tub.finding("sweep-meets")) << tub.told();
}

// The rim of the tube's rear end keeps to a ball round the pivot, the edge of the mouth to a larger one.
TEST(TurntableMouth, ATubesRearEndDipsIntoATub) {
    for (const double rear : {250.0, 258.0, 275.0}) {
        Boat boat = withDrum("180 mm", "");
        Trunnion t = monitor();
        t.on = "lamp";
        t.stock = "";
        t.rear = std::to_string(rear) + " mm";
        t.lowest = "0 deg";
        t.highest = "80 deg";
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        const double over = 200 - boat.fact("lip_top");
        const double left = std::hypot(197, over) - std::hypot(rear, 45);
        EXPECT_EQ(boat.finding("sweep-meets") != nullptr, left < 0) << rear << boat.told();
        EXPECT_EQ(boat.finding("sweep-tight") != nullptr, left > 0 && left < 5) << rear << boat.told();
        const SweptCheck* near = boat.check("monitor/tube", "lamp/lip");
        if (rear != 258) continue;
        ASSERT_TRUE(near) << boat.told();
        EXPECT_NEAR(near->clearance, left, chord);
        EXPECT_LE(near->clearance, left + 1e-2);
    }
}

TEST(TurntableMouth, AFormMayStandInAPipe) {
    for (const auto& [half, top, clear] : {std::tuple(100.0, 800.0, true), std::tuple(138.0, 800.0, false),
                                           std::tuple(100.0, 1000.0, false)}) {
        Boat boat = withDrum("-300 mm", "");
        boat.add("post", makeBox({-half, -half, 620}, {half, half, top}));
        boat.make();
        // Corners 141.4 and 195.2 from the axis, of 197 less the gap of 3.
        EXPECT_EQ(!boat.finding("sweep-meets") && !boat.finding("sweep-tight"), clear) << half << boat.told();
    }
}

} // namespace
} // namespace slab
