// What a turntable's rings lie on and its drum goes through.
#include "tests/mechanisms/boat.h"
#include <cmath>

namespace slab {

namespace {

// Rings 524 or so across on a deck whose edge is at y = 500: they stand over it by what they reach beyond.
TEST(Turntable, RingsOverTheDecksEdgeAreTold) {
    for (const double y : {0.0, 200.0, 300.0, 330.0}) {
        Boat boat;
        Turntable t = lampTable();
        t.at.y = std::to_string(y) + " mm";
        boat.project.mechanisms.turntables = {t};
        boat.make();
        const double over = y + boat.fact("ring_outside") / 2 - 500;
        const Finding* f = boat.finding("turntable-overhang");
        ASSERT_EQ(f != nullptr, over > 0.5) << y << boat.told();
        if (!f) continue;
        const std::size_t at = f->message.find("up to ");
        ASSERT_NE(at, std::string::npos);
        EXPECT_NEAR(std::stod(f->message.substr(at + 6)), over, 0.06) << f->message;
    }
}

// Over two edges the advised move takes it off both; rings larger than the deck are told no move.
TEST(Turntable, RingsAreMovedOffBothEdges) {
    Boat boat;
    Turntable t = lampTable();
    t.at.x = "800 mm";
    t.at.y = "300 mm";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    const double radius = boat.fact("ring_outside") / 2;
    const Finding* f = boat.finding("turntable-overhang");
    ASSERT_TRUE(f) << boat.told();
    const double back = std::ceil(800 + radius - 1000), aside = std::ceil(300 + radius - 500);
    const std::size_t first = f->remedy.find("Move it "), second = f->remedy.find(" and ");
    ASSERT_NE(second, std::string::npos) << f->remedy;
    EXPECT_EQ(std::stod(f->remedy.substr(first + 8)), back) << f->remedy;
    EXPECT_EQ(std::stod(f->remedy.substr(second + 5)), aside) << f->remedy;
    EXPECT_NE(f->remedy.find(" back and "), std::string::npos) << f->remedy;
    EXPECT_NE(f->remedy.find(" to starboard"), std::string::npos) << f->remedy;
    boat.set = {};
    boat.project.mechanisms.turntables[0].ring_width = "500 mm";
    boat.make();
    f = boat.finding("turntable-overhang");
    ASSERT_TRUE(f) << boat.told();
    EXPECT_EQ(f->remedy.rfind("Make its rings narrower", 0), 0U) << f->remedy;
}

// On the floor inside the hull: its upper face, at 112, is a deck like any other.
TEST(Turntable, AFloorInsideTheHullIsADeck) {
    Boat boat;
    Turntable t = lampTable();
    t.at.z = "112 mm";
    t.depth = "-150 mm";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    for (const char* code : {"turntable-no-deck", "turntable-cuts-below", "turntable-seat-uneven"})
        EXPECT_FALSE(boat.finding(code)) << boat.told();
    EXPECT_EQ(boat.plate("hull/bottom")->holes.size(), 1U);
    boat = {};
    t.at.z = "160 mm";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    EXPECT_TRUE(boat.finding("turntable-no-deck")) << boat.told();
}

// The hull's floor is 12 thick from z = 100: a drum that ends above 112 leaves it whole.
TEST(Turntable, WhatElseTheDrumGoesThroughIsTold) {
    for (const double depth : {300.0, 470.0, 600.0}) {
        Boat boat;
        Turntable t = lampTable();
        t.depth = std::to_string(depth) + " mm";
        boat.project.mechanisms.turntables = {t};
        boat.make();
        const Finding* f = boat.finding("turntable-cuts-below");
        const bool cut = !boat.plate("hull/bottom")->holes.empty();
        EXPECT_EQ(f != nullptr, cut) << depth << boat.told();
        EXPECT_EQ(cut, depth == 600) << depth;
        if (!f) continue;
        // And the depth that is advised ends above it.
        const std::string remedy = f->remedy; // what it points to goes with the set
        const std::size_t at = remedy.find("Make it ");
        ASSERT_NE(at, std::string::npos) << remedy;
        boat.set = {};
        boat.project.mechanisms.turntables[0].depth =
            std::to_string(std::stod(remedy.substr(at + 8))) + " mm";
        boat.make();
        EXPECT_FALSE(boat.finding("turntable-cuts-below")) << boat.told();
    }
}

} // namespace
} // namespace slab
