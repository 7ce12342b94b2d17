// Balance by levers, sweeps of the tube.
#include "core/mechanisms/trunnion_slot.h"
#include "core/plates/margins.h"
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double deg = std::numbers::pi / 180;

TEST(TrunnionBalance, LeversByHand) {
    // 4 kg tube, 900 ahead and 300 behind: its middle 300 ahead; 1 kg in front: 4·0.3 + 1·0.9 = 2.1 kg m.
    TubeLoad l;
    l.front = 900;
    l.rear = 300;
    l.mass = 4;
    l.frontMass = 1;
    l.lowest = -10 * deg;
    l.highest = 60 * deg;
    TubeBalance b = balanceOf(l);
    EXPECT_NEAR(b.moment, 2.1 * 9.80665, 1e-9);
    EXPECT_NEAR(b.counterweight, 7, 1e-9);
    EXPECT_NEAR(b.holding, b.moment, 1e-9);
    l.rearMass = b.counterweight;
    EXPECT_NEAR(balanceOf(l).moment, 0, 1e-9);
    l.rearMass = 0;
    l.lowest = 60 * deg;
    l.highest = 80 * deg;
    EXPECT_NEAR(balanceOf(l).holding, b.moment / 2, 1e-9);
}

TEST(TrunnionBalance, PipeByItsWallWeighsAsTabled) {
    // Half-inch PVC on the least wall: 0.152 lb/ft (pi/4 (OD² - ID²) · 12 · 0.0506 lb/in³, reference value).
    TubeLoad l;
    l.diameter = 0.840 * 25.4;
    l.wall = 0.109 * 25.4;
    l.front = 304.8;
    EXPECT_NEAR(balanceOf(l).mass / 0.45359237, 0.152, 0.001);
}

TEST(Trunnion, ItsSlotIsCutInThePlateAhead) {
    Boat boat;
    boat.project.mechanisms.trunnions = {monitor()};
    boat.project.mechanisms.trunnions[0].rear = "200 mm"; // its rear end stays well clear of the deck
    boat.add("house", makeBox({-350, -300, 600}, {350, 300, 1300}));
    boat.leaveOut("house/bottom");
    boat.make();
    const Plate* front = boat.plate("house/front");
    ASSERT_TRUE(front);
    ASSERT_EQ(front->holes.size(), 1U) << boat.told();
    EXPECT_EQ(front->holes[0].opening, "monitor");
    // Upright plate 350 ahead, 12 thick, radius 50: top 350 tan 40 + 50 / cos 40, bottom -350 tan 5 - 50 /
    // cos 5.
    const double top = 350 * std::tan(40 * deg) + 50 / std::cos(40 * deg);
    const double bottom = -350 * std::tan(5 * deg) - 50 / std::cos(5 * deg);
    const Box2 box = bounds(front->holes[0].outer);
    EXPECT_NEAR(box.size().y(), top - bottom, 0.3);
    EXPECT_NEAR(boat.fact("slot_outer"), top - bottom, 1e-6);
    EXPECT_NEAR(box.size().x(), 100, 0.2);
    const double middle = front->frame.toBody(Vec2((box.min + box.max) / 2)).z();
    EXPECT_NEAR(middle, 800 + (top + bottom) / 2, 0.2);
    const SweptCheck* check = boat.check("monitor/tube", "house/front");
    ASSERT_TRUE(check) << boat.told();
    EXPECT_GE(check->clearance, 5 - 1e-3) << "the gap is kept";
    EXPECT_LE(check->clearance, 5.2);
    EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
    ASSERT_TRUE(boat.plate("monitor/cheek port"));
    EXPECT_TRUE(checkClosed(boat.plate("monitor/cheek port")->solid));
}

TEST(Trunnion, ItsRearEndIsSweptAgainstTheRider) {
    Boat boat;
    boat.project.mechanisms.trunnions = {monitor()};
    // Rear end at elevation a: lower rim 250 sin a + 45 cos a below the pivot; greatest at 40 deg.
    const double low = 800 - (250 * std::sin(40 * deg) + 45 * std::cos(40 * deg));
    const FitSolid lap{"rider/lap", "rider", makeBoxSolid({-900, -200, 500}, {0, 200, low - 7}),
                       20,          false,   {}};
    boat.make({lap});
    const SweptCheck* check = boat.check("monitor/tube", "rider/lap");
    ASSERT_TRUE(check) << boat.told();
    EXPECT_NEAR(check->clearance, 7, 2e-3);
    EXPECT_NEAR(check->at.at(0), 40 * deg, 1e-3);
}

// A flat-ended tube: the rim of its far end, sqrt(front² + r²) from the pivot.
TEST(Trunnion, ItsSweptRadiusIsThatOfItsFarRim) {
    for (const auto& [front, rear] : {std::pair("800 mm", "250 mm"), std::pair("100 mm", "800 mm")}) {
        Boat boat;
        Trunnion tube = monitor();
        tube.diameter = "50 mm";
        tube.front = front;
        tube.rear = rear;
        tube.lowest = "0 deg"; // clear of the deck
        tube.highest = "5 deg";
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        const double exact = std::hypot(800, 25); // 800.39
        EXPECT_GE(boat.fact("swept_radius"), exact);
        EXPECT_LE(boat.fact("swept_radius"), exact + 0.01);
    }
}

TEST(Trunnion, WordsAreInTheDocumentsUnits) {
    Boat boat;
    boat.project.mechanisms.turntables = {lampTable()};
    boat.project.mechanisms.trunnions = {monitor()};
    boat.project.mechanisms.trunnions[0].front_mass = "4";
    boat.stock = resolveStock(boat.project, boat.scope);
    UnitStyle feet;
    feet.unit = Unit::ft;
    const MechanismSet set =
        resolveMechanisms({boat.project, boat.scope, boat.stock, boat.body, boat.rules, feet});
    std::string all;
    for (const Finding& f : set.findings) all += f.message + " " + f.remedy + "\n";
    for (const HardwareLine& h : set.hardware) all += h.item + " " + h.note + "\n";
    EXPECT_NE(all.find("lbf ft"), std::string::npos) << all;
    for (const char* metric : {" mm", " N m", " kg"}) EXPECT_EQ(all.find(metric), std::string::npos) << all;
}

TEST(Trunnion, OnATurntableItTurnsToo) {
    Boat boat;
    Turntable table = lampTable();
    boat.project.mechanisms.turntables = {table};
    Trunnion tube = monitor();
    tube.on = "lamp";
    tube.at.x = "50 mm";
    tube.rear = "100 mm";
    boat.project.mechanisms.trunnions = {tube};
    const FitSolid post{"donor/post", "donor", makeBoxSolid({-850, -50, 700}, {-800, 50, 900}),
                        20,           false,   {}};
    boat.make({post});
    // The front end reaches 50 + hypot(700, 45) from the axis: the post's face at 800 is nearer than wanted
    // by less.
    const SweptCheck* check = boat.check("monitor/tube", "donor/post");
    ASSERT_TRUE(check) << boat.told();
    EXPECT_NEAR(check->clearance, 800 - 50 - std::hypot(700, 45), 0.02);
    EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
}

/// What is told of the cheeks' holes by the rule of least edge distance.
std::string marginsOf(const Boat& boat) {
    PlateSet cheeks;
    for (const Plate& p : boat.plates.plates)
        if (p.name.find("/cheek") != std::string::npos) cheeks.plates.push_back(p);
    EXPECT_EQ(cheeks.plates.size(), 2U);
    std::string told;
    for (const Finding& f : marginFindings(cheeks, boat.stock, {}, {}))
        told += f.code + ": " + f.message + "\n";
    return told;
}

TEST(Trunnion, ItsBoltKeepsTheLeastEdgeDistance) {
    // A hole of 10.5: three of it, 31.5, in plywood; 40 in foam; a whole thickness where that is more (common
    // practice). A tube of 30 asks for no wider head than the bolt does.
    for (const auto& [kind, thickness, web] : {std::tuple{"plywood", 12.0, 31.5},
                                               {"foam", 25.0, 40.0},
                                               {"foam", 60.0, 60.0},
                                               {"plywood", 6.0, 31.5}}) {
        Boat boat;
        boat.project.stock.sheets[0].kind = kind;
        boat.project.stock.sheets[0].thickness = std::to_string(thickness) + " mm";
        Trunnion t = monitor();
        t.diameter = "30 mm";
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        EXPECT_EQ(marginsOf(boat), "") << kind << thickness;
        const Plate* cheek = boat.plate("monitor/cheek port");
        ASSERT_TRUE(cheek);
        const Box2 box = bounds(cheek->boundary.outer), hole = bounds(cheek->holes.at(0).outer);
        EXPECT_NEAR(box.max.y() - hole.max.y(), web, 0.2) << "and no more than that, over the pivot";
        EXPECT_FALSE(boat.finding("trunnion-low")) << boat.told();
    }
    auto random = seeded(5);
    for (int i = 0; i < 60 / slowdown; ++i) {
        Boat boat;
        boat.project.stock.sheets[0].kind = below(random, 2) ? "foam" : "plywood";
        boat.project.stock.sheets[0].thickness = std::to_string(uniform(random, 3, 70)) + " mm";
        Trunnion t = monitor();
        t.diameter = std::to_string(uniform(random, 12, 250)) + " mm";
        t.at.z = std::to_string(uniform(random, 740, 1200)) + " mm";
        t.at.pitch = std::to_string(uniform(random, -10, 10)) + " deg";
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        EXPECT_EQ(marginsOf(boat), "") << i << boat.told();
    }
}

TEST(Trunnion, APivotTooLowForItsBoltIsTold) {
    Boat boat;
    Trunnion t = monitor();
    t.diameter = "40 mm";
    t.at.z = "630 mm"; // 30 above the deck; the bolt needs 5.25 + 31.5
    boat.project.mechanisms.trunnions = {t};
    boat.make();
    const Finding* low = boat.finding("trunnion-low");
    ASSERT_TRUE(low) << boat.told();
    EXPECT_NE(low->remedy.find("37 mm"), std::string::npos) << low->remedy;
    for (const Vec3& p : boat.plate("monitor/cheek port")->solid.vertices) EXPECT_GE(p.z(), 600 - 1e-9);
}

TEST(Trunnion, ItsCheeksStandOnTheTopOfADrumThatRises) {
    for (const bool rises : {false, true}) {
        Boat boat;
        Turntable table = lampTable();
        table.depth = rises ? "-80 mm" : "80 mm";
        table.from = table.to = "0"; // held: no long sweep
        boat.project.mechanisms.turntables = {table};
        Trunnion tube = monitor();
        tube.on = "lamp";
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        const Plate* cheek = boat.plate("monitor/cheek port");
        ASSERT_TRUE(cheek) << boat.told();
        // Deck at 600, the lip's top 12 + 3 + 6 above it; the drum 80 more.
        EXPECT_NEAR(bounds(cheek->solid).min.z(), 600 + 21 + (rises ? 80 : 0), 1e-6);
    }
}

// A level tube of mass m, a ahead and b behind: m (a - b) / 2 / b at the rear end balances it.
TEST(Trunnion, ItsWeightsAreOnTheShoppingList) {
    const auto weights = [](const Trunnion& t) {
        Boat boat;
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        std::vector<std::string> items;
        for (const HardwareLine& h : boat.set.hardware)
            if (h.item.find("weight") != std::string::npos) {
                EXPECT_EQ(h.count, 1);
                EXPECT_NE(h.note.find("cannot come off"), std::string::npos) << h.note;
                items.push_back(h.item);
            }
        return items;
    };
    Trunnion t = monitor();
    t.front = "600 mm";
    t.rear = "200 mm";
    t.mass = "2";
    t.front_mass = t.rear_mass = "";
    EXPECT_EQ(weights(t), std::vector<std::string>{"counterweight of 2.0 kg at the rear end"});
    t.rear_mass = "2";
    EXPECT_EQ(weights(t), std::vector<std::string>{"weight of 2.0 kg at the rear end"}) << "balanced";
    t.front_mass = "1";
    EXPECT_EQ(weights(t), (std::vector<std::string>{"weight of 1.0 kg at the front end",
                                                    "weight of 2.0 kg at the rear end",
                                                    "counterweight of 3.0 kg more at the rear end"}));
    t.front_mass = t.rear_mass = "";
    t.rear = "600 mm";
    EXPECT_TRUE(weights(t).empty()) << "it balances by itself";
    t.rear = "";
    EXPECT_TRUE(weights(t).empty()) << "there is no rear end to hang it at";
}

TEST(Trunnion, WhatIsWrongIsTold) {
    const auto has = [](const std::string& code, auto change) {
        Boat boat;
        Trunnion t = monitor();
        change(t);
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        EXPECT_TRUE(boat.finding(code)) << code << "\n" << boat.told();
    };
    has("mechanism-size", [](Trunnion& t) { t.diameter = ""; });
    has("mechanism-size", [](Trunnion& t) { t.gap = "-3 mm"; });
    has("mechanism-size", [](Trunnion& t) { t.rear = "-30 mm"; });
    has("mechanism-size", [](Trunnion& t) { t.mass = "-1"; });
    has("mechanism-size", [](Trunnion& t) { t.wall = "-2 mm"; });
    has("mechanism-size", [](Trunnion& t) { t.wall = "60 mm"; });
    has("mechanism-range", [](Trunnion& t) { t.lowest = "50 deg"; });
    has("mechanism-pose-outside", [](Trunnion& t) { t.angle = "70 deg"; });
    has("mechanism-stock", [](Trunnion& t) { t.stock = "glass"; });
    has("trunnion-on-unknown", [](Trunnion& t) { t.on = "nobody"; });
    has("trunnion-no-mass", [](Trunnion& t) { t.mass = ""; });
    has("trunnion-unbalanced", [](Trunnion& t) { t.front_mass = "4"; });
    has("trunnion-pinch", [](Trunnion&) {});
    has("sweep-meets", [](Trunnion& t) { t.at.z = "600 mm"; });
}

// A tube weightless but for what hangs at its ends: 4 kg 700 ahead against 2 kg 250 behind.
TEST(Trunnion, NoMassIsNoneAndTheWeightToldIsWhatToType) {
    const auto with = [](const char* mass, const char* front, const char* rear) {
        Boat boat;
        Trunnion t = monitor();
        t.wall = "3 mm";
        t.mass = mass;
        t.front_mass = front;
        t.rear_mass = rear;
        boat.project.mechanisms.trunnions = {t};
        boat.make();
        return boat;
    };
    EXPECT_EQ(with("0", "", "").fact("tube_mass"), 0);
    EXPECT_FALSE(with("0", "", "").finding("trunnion-no-mass"));
    EXPECT_GT(with("", "", "").fact("tube_mass"), 1) << "by its wall";
    const Boat boat = with("0", "4", "2");
    const Finding* told = boat.finding("trunnion-unbalanced");
    ASSERT_TRUE(told) << boat.told();
    EXPECT_EQ(told->about.back(), "document:/mechanisms/trunnions/0/rear_mass");
    EXPECT_NE(told->remedy.find("Hang 11 kg in all at the rear end"), std::string::npos) << told->remedy;
    EXPECT_NEAR(boat.fact("counterweight"), 4 * 700 / 250.0 - 2, 1e-9);
    EXPECT_FALSE(with("0", "4", "11").finding("trunnion-unbalanced"));
}

} // namespace
} // namespace slab
