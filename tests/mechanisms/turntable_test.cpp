// The deck's hole, rings and drums as they are cut, hardware; sweeps through the document.
#include "core/mechanisms/turntable_rings.h"
#include "core/plates/sheet_room.h"
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

TEST(Turntable, RingsAreCutAndTheDeckIsOpened) {
    Boat boat;
    boat.project.mechanisms.turntables = {lampTable()};
    boat.make();
    ASSERT_EQ(boat.set.parts.size(), 3U) << boat.told();
    const Plate* deck = boat.plate("hull/top");
    ASSERT_TRUE(deck);
    ASSERT_EQ(deck->holes.size(), 1U);
    EXPECT_EQ(deck->holes[0].opening, "lamp");
    // The hole holds the true circle of 406 mm and is hardly larger.
    for (const Vec2& p : deck->holes[0].outer) {
        const Vec3 q = deck->frame.toBody(p);
        EXPECT_GE(std::hypot(q.x(), q.y()), 203 - 1e-5);
        EXPECT_LE(std::hypot(q.x(), q.y()), 203.1);
    }
    const Plate* cap = boat.plate("lamp/cap ring");
    ASSERT_TRUE(cap);
    const double area = std::numbers::pi * (273.0 * 273.0 - 210.0 * 210.0);
    EXPECT_NEAR(cap->volume, area * 12, area * 12 * 0.002);
    double cells = 0;
    for (const ConvexSolid& c : cap->cells) cells += volume(toPolyhedron(c));
    EXPECT_NEAR(cells, cap->volume, 1e-3);
    EXPECT_TRUE(checkClosed(cap->solid));
    EXPECT_FALSE(boat.finding("turntable-seat-uneven")) << boat.told();
    EXPECT_TRUE(boat.finding("turntable-pinch"));
    EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
    // Hull floor and deck stand clear of the drum: 600 + 12 + 3 - 180 above the floor's inside face at 112.
    const SweptCheck* drum = boat.check("lamp/drum", "hull/top");
    ASSERT_TRUE(drum) << boat.told();
    EXPECT_NEAR(drum->clearance, 3, 0.06);
    EXPECT_GE(drum->clearance, 3 - 1e-6);
}

// Screws reach into the deck and not through it; strips go round at the middle of what they lie on.
TEST(Turntable, HardwareReachesTheDeckAndStripsGoRound) {
    for (const bool soft : {false, true}) {
        Boat boat;
        if (soft) boat.project.stock.sheets[0].kind = "foam";
        boat.project.mechanisms.turntables = {lampTable()};
        boat.make();
        const auto fact = [&](const std::string& key) {
            for (const MechanismFact& f : boat.set.facts)
                if (f.key == key) return f.value;
            ADD_FAILURE() << key;
            return 0.0;
        };
        std::vector<double> strips;
        int fasteners = 0;
        for (const HardwareLine& h : boat.set.hardware) {
            if (h.item.starts_with("low-friction strip")) strips.push_back(h.size);
            if (!h.item.starts_with("countersunk screw") && !h.item.starts_with("bolt with two")) continue;
            ++fasteners;
            EXPECT_EQ(h.item.starts_with("bolt"), soft) << h.item;
            const double deckUnder = fact("cap_top") + 12; // of the whole stack
            EXPECT_NEAR(h.size, soft ? deckUnder + 30 : deckUnder - 2, 1e-9);
            EXPECT_GT(h.size, fact("cap_top") + 6) << "half of the deck at least";
        }
        EXPECT_EQ(fasteners, 1);
        const double lip = fact("lip_diameter");
        ASSERT_EQ(strips.size(), 2U);
        EXPECT_NEAR(strips[0], std::numbers::pi * (fact("seat_hole") + lip) / 2, 1e-9);
        EXPECT_NEAR(strips[1], std::numbers::pi * (fact("cap_hole") + lip) / 2, 1e-9);
    }
}

TEST(Turntable, RingsLargerThanTheirSheetAreCutInStaggeredSegments) {
    Boat boat;
    boat.project.stock.sheets[0].width = "400 mm";
    boat.project.stock.sheets[0].length = "600 mm";
    boat.project.mechanisms.turntables = {lampTable()};
    boat.make();
    // Outside 546 on a sheet of 400 by 600: two halves, 546 by 273.
    EXPECT_EQ(boat.fact("ring_segments"), 2);
    ASSERT_EQ(boat.set.parts.size(), 6U);
    double volumes = 0, cells = 0;
    std::vector<double> joints;
    for (const Plate& p : boat.set.parts) {
        EXPECT_TRUE(checkClosed(p.solid)) << p.name;
        const Vec2 size = bounds(p.boundary.outer).size();
        EXPECT_LE(size.maxCoeff(), 600);
        EXPECT_LE(size.minCoeff(), 400);
        for (const ConvexSolid& c : p.cells) cells += volume(toPolyhedron(c));
        volumes += p.volume;
        for (std::size_t i = 0; i < p.boundary.edges.size(); ++i)
            if (!p.boundary.edges[i].neighbour.empty()) {
                const Vec3 q = p.frame.toBody(p.boundary.outer[i]);
                joints.push_back(
                    std::fmod(std::atan2(q.y(), q.x()) + 2 * std::numbers::pi, std::numbers::pi));
            }
    }
    EXPECT_NEAR(volumes, cells, 1e-3);
    const double areas = std::numbers::pi * (3 * 273.0 * 273 - 203.0 * 203 - 228.0 * 228 - 210.0 * 210);
    EXPECT_NEAR(volumes, areas * 12, areas * 12 * 0.003);
    ASSERT_EQ(joints.size(), 12U);
    for (int layer = 0; layer < 3; ++layer)
        for (int i = 0; i < 4; ++i)
            EXPECT_NEAR(std::remainder(joints[static_cast<std::size_t>(4 * layer + i)] -
                                           (layer % 2 ? std::numbers::pi / 2 : 0),
                                       std::numbers::pi),
                        0, 1e-9);
}

/// Angles at which the ends of a layer's segments lie, sorted.
std::vector<double> jointsOf(const Boat& boat, const std::string& layer) {
    std::vector<double> at;
    for (const Plate& p : boat.set.parts)
        if (p.name.rfind("lamp/" + layer + " segment", 0) == 0)
            for (std::size_t i = 0; i < p.boundary.edges.size(); ++i)
                if (p.boundary.edges[i].role == EdgeRole::butts) {
                    const Vec3 a = p.frame.toBody(p.boundary.outer[i]),
                               b = p.frame.toBody(p.boundary.outer[(i + 1) % p.boundary.outer.size()]);
                    const Vec3 middle = (a + b) / 2;
                    at.push_back(std::atan2(middle.y(), middle.x()));
                }
    std::sort(at.begin(), at.end());
    return at;
}

/// Crosses on the cap: evenly on the screws' circle, as many as are bought, none on a joint of any layer.
void expectScrewsBesideJoints(const Boat& boat, const std::vector<std::string>& layers) {
    std::vector<double> at;
    for (const Plate& p : boat.set.parts)
        for (std::size_t i = 0; i + 1 < p.guides.size(); i += 2) {
            if (i == 0) ++i; // the joint's line
            const GuideLine& g = p.guides[i];
            const Vec2 middle = (g.from + g.to) / 2, other = (p.guides[i + 1].from + p.guides[i + 1].to) / 2;
            EXPECT_LT((middle - other).norm(), 1e-9);
            EXPECT_FALSE(g.inside);
            const Vec3 screw = p.frame.toBody(Vec3(middle.x(), middle.y(), 0));
            EXPECT_NEAR(2 * screw.head<2>().norm(), boat.fact("screw_circle"), 1e-6);
            at.push_back(std::atan2(screw.y(), screw.x()));
        }
    const auto bought =
        std::find_if(boat.set.hardware.begin(), boat.set.hardware.end(), [](const HardwareLine& h) {
            return h.note.find("evenly on a circle") != std::string::npos;
        });
    ASSERT_NE(bought, boat.set.hardware.end());
    ASSERT_EQ(at.size(), static_cast<std::size_t>(bought->count));
    std::sort(at.begin(), at.end());
    const double pitch = 2 * std::numbers::pi / static_cast<double>(at.size());
    for (std::size_t i = 0; i + 1 < at.size(); ++i) EXPECT_NEAR(at[i + 1] - at[i], pitch, 1e-6);
    for (const std::string& layer : layers)
        for (const double joint : jointsOf(boat, layer))
            for (const double screw : at)
                EXPECT_GE(std::abs(std::remainder(joint - screw, 2 * std::numbers::pi)), pitch / 2 - 1e-6)
                    << layer;
}

TEST(Turntable, EveryJointOfALayerLiesFarFromThoseOfTheNext) {
    auto random = seeded(9);
    for (int round = 0; round < 30 / slowdown + 2; ++round) {
        Boat boat;
        SheetStock& sheet = boat.project.stock.sheets[0];
        sheet.width = std::to_string(uniform(random, 260, 420)) + " mm";
        sheet.length = std::to_string(uniform(random, 420, 700)) + " mm";
        sheet.turns = std::vector<std::string>{"any", "quarter", "none"}[static_cast<std::size_t>(round % 3)];
        Turntable t = lampTable();
        t.lip_thickness = round % 2 ? "6 mm" : "20 mm";
        boat.project.mechanisms.turntables = {t};
        boat.make();
        if (boat.finding("ring-sheet")) continue;
        const auto k = static_cast<std::size_t>(boat.fact("ring_segments"));
        std::vector<std::string> layers{"seat ring"};
        const int spacers = static_cast<int>(boat.fact("spacer_layers"));
        for (int i = 1; i <= spacers; ++i)
            layers.push_back(spacers > 1 ? "spacer ring " + std::to_string(i) : "spacer ring");
        layers.push_back("cap ring");
        ASSERT_EQ(boat.set.parts.size(), k * layers.size());
        const plates::SheetRoom room = plates::roomOf(boat.stock, "ply_12");
        for (const Plate& p : boat.set.parts) {
            EXPECT_TRUE(plates::fitsSheet(p.boundary.outer, room)) << p.name << " of " << k;
            ASSERT_FALSE(p.guides.empty());
            EXPECT_EQ(p.guides.size() > 1, p.name.find("cap") != std::string::npos) << "screws";
        }
        expectScrewsBesideJoints(boat, layers);
        const double middle = (456.0 + 546) / 4; // radius of the middle of the spacer
        EXPECT_NEAR(boat.fact("ring_joint_lap"), std::numbers::pi * middle / static_cast<double>(k), 1e-9);
        for (std::size_t i = 0; i + 1 < layers.size(); ++i) {
            const auto own = jointsOf(boat, layers[i]), next = jointsOf(boat, layers[i + 1]);
            ASSERT_EQ(own.size(), 2 * k) << layers[i]; // each joint from both sides
            for (const double a : own) {
                double least = 1e9;
                for (const double b : next)
                    least = std::min(least, std::abs(std::remainder(a - b, 2 * std::numbers::pi)));
                EXPECT_NEAR(least * middle, boat.fact("ring_joint_lap"), 1e-6) << layers[i];
            }
        }
        // A guide line lies where a joint of the next layer is, and spans the ring.
        for (const Plate& p : boat.set.parts) {
            const bool cap = p.name.find("cap") != std::string::npos;
            const Vec3 a = p.frame.toBody(p.guides[0].from), b = p.frame.toBody(p.guides[0].to);
            EXPECT_EQ(p.guides[0].inside, cap) << "the cap is glued from below";
            const std::string next = cap                                        ? layers[layers.size() - 2]
                                     : p.name.find("seat") != std::string::npos ? layers[1]
                                                                                : std::string("cap ring");
            if (spacers > 1 && p.name.find("spacer") != std::string::npos) continue;
            double least = 1e9;
            for (const double joint : jointsOf(boat, next))
                least = std::min(
                    least, std::abs(std::remainder(joint - std::atan2(b.y(), b.x()), 2 * std::numbers::pi)));
            EXPECT_NEAR(least, 0, 1e-9) << p.name;
            EXPECT_NEAR(std::hypot(b.x(), b.y()), 273, 0.1);
            EXPECT_LT(std::hypot(a.x(), a.y()), 273 - 40);
        }
        const bool glued =
            std::any_of(boat.set.hardware.begin(), boat.set.hardware.end(), [](const HardwareLine& h) {
                return h.item.find("adhesive") != std::string::npos &&
                       h.note.find("splices") != std::string::npos;
            });
        EXPECT_TRUE(glued);
    }
}

TEST(Turntable, ASolidDrumThatRisesStandsOnADiscInSectors) {
    Boat boat;
    boat.project.stock.sheets[0].width = "300 mm";
    boat.project.stock.sheets[0].length = "320 mm";
    Turntable t = lampTable();
    t.depth = "-180 mm";
    t.wall = "200 mm"; // a log: nothing of it is hollow
    t.ring_width = "280 mm";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    const double k = boat.fact("ring_segments");
    EXPECT_GE(k, 4) << boat.told();
    double seat = 0, cells = 0;
    for (const Plate& p : boat.set.parts)
        if (p.name.find("seat") != std::string::npos) {
            EXPECT_TRUE(checkClosed(p.solid)) << p.name;
            seat += p.volume;
            for (const ConvexSolid& c : p.cells) cells += volume(toPolyhedron(c));
        }
    EXPECT_NEAR(seat, std::numbers::pi * 280 * 280 * 12, 0.003 * seat);
    EXPECT_NEAR(cells, seat, 1e-3);
}

TEST(Turntable, AManySidedDrumClosesRoundItsAxis) {
    Boat boat;
    Turntable t = lampTable();
    t.sides = "12";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    double sides = 0;
    for (const Plate& p : boat.set.parts)
        if (p.name.rfind("lamp/side", 0) == 0) {
            sides += p.volume;
            EXPECT_TRUE(checkClosed(p.solid));
            EXPECT_NEAR(p.boundary.edges[1].bevel, std::numbers::pi / 12, 1e-9);
            EXPECT_NEAR(p.boundary.outer[1].x() - p.boundary.outer[0].x(),
                        400 * std::sin(std::numbers::pi / 12), 1e-9);
        }
    // Prism between two regular 12-gons: n tan(std::numbers::pi/n) (apothem² - (apothem - t)²) × height.
    const double a = 200 * std::cos(std::numbers::pi / 12);
    EXPECT_NEAR(sides, 12 * std::tan(std::numbers::pi / 12) * (a * a - (a - 12) * (a - 12)) * 180, 1e-3);
    const Plate* floor = boat.plate("lamp/floor");
    ASSERT_TRUE(floor);
    EXPECT_NEAR(floor->volume, 12 * std::tan(std::numbers::pi / 12) * (a - 12) * (a - 12) * 12, 1e-3);
    EXPECT_FALSE(boat.finding("sweep-meets")) << boat.told();
}

FitSolid head(double x, double clearance) {
    return {"rider/head", "rider", makeBoxSolid({x, -500, 650}, {x + 200, 500, 850}), clearance, false, {}};
}

TEST(Turntable, WhatItCarriesIsSweptRoundTheRider) {
    Boat boat = lampHouse();
    boat.make({head(-400, 20)});
    // The corner circle of the box: hypot(150, 100) = 180.28 from the axis; the head's face is 200 from it.
    EXPECT_NEAR(boat.fact("swept_radius"), std::hypot(150, 100), 1e-6);
    double least = 1e9;
    for (const SweptCheck& c : boat.set.checks)
        if (c.fixed == "rider/head") {
            least = std::min(least, c.clearance);
            EXPECT_LE(c.bound, c.clearance);
        }
    EXPECT_NEAR(least, 200 - std::hypot(150, 100), 1e-3) << boat.told();
    const Finding* tight = boat.finding("sweep-tight");
    ASSERT_TRUE(tight) << boat.told();
    EXPECT_EQ(tight->severity, Severity::stop);
}

TEST(Turntable, StopsThatLeaveTheRiderOutClearIt) {
    Boat boat = lampHouse();
    boat.make({head(-370, 20)}); // its face 170 from the axis: the corner circle goes in
    const Finding* meets = boat.finding("sweep-meets");
    ASSERT_TRUE(meets) << boat.told();
    EXPECT_NE(meets->message.find("rider/head"), std::string::npos);
    Boat held = lampHouse();
    held.project.mechanisms.turntables[0].from = "-5 deg";
    held.project.mechanisms.turntables[0].to = "5 deg";
    held.make({head(-370, 8)});
    EXPECT_FALSE(held.finding("sweep-meets")) << held.told();
    // Support of the box at 5 deg: 150 cos + 100 sin = 158.15.
    const double a = 5 * std::numbers::pi / 180;
    double least = 1e9;
    for (const SweptCheck& c : held.set.checks)
        if (c.fixed == "rider/head") least = std::min(least, c.clearance);
    EXPECT_NEAR(least, 170 - 150 * std::cos(a) - 100 * std::sin(a), 1e-3) << held.told();
}

TEST(Turntable, ShownAngleTurnsWhatItCarries) {
    Boat boat = lampHouse();
    boat.project.mechanisms.turntables[0].angle = "90 deg";
    boat.make();
    const PlateSet shown = posed(boat.plates, boat.set);
    for (std::size_t i = 0; i < shown.plates.size(); ++i) {
        const Plate &was = boat.plates.plates[i], &is = shown.plates[i];
        const bool carried = was.name.rfind("lamp house/", 0) == 0;
        const Vec3 a = was.frame.toBody(was.boundary.outer[0]), b = is.frame.toBody(is.boundary.outer[0]);
        if (carried)
            EXPECT_LT((b - Vec3(-a.y(), a.x(), a.z())).norm(), 1e-9) << was.name;
        else
            EXPECT_EQ(was, is);
    }
}

TEST(Turntable, WhatIsWrongIsTold) {
    const auto codes = [](auto change) {
        Boat boat = lampHouse();
        change(boat.project.mechanisms.turntables[0], boat);
        boat.make();
        std::string all;
        for (const Finding& f : boat.set.findings) all += f.code + " ";
        return all;
    };
    using testing::PrintToString;
    const auto has = [&](const std::string& code, auto change) {
        const std::string all = codes(change);
        EXPECT_NE(all.find(code), std::string::npos) << all;
    };
    has("mechanism-size", [](Turntable& t, Boat&) { t.diameter = ""; });
    has("mechanism-size", [](Turntable& t, Boat&) { t.depth = ""; });
    has("unknown-name", [](Turntable& t, Boat&) { t.lip = "nothing"; });
    has("mechanism-stock", [](Turntable& t, Boat&) { t.ring_stock = "glass"; });
    has("turntable-sides", [](Turntable& t, Boat&) { t.sides = "2.5"; });
    has("mechanism-range", [](Turntable& t, Boat&) { t.from = "20 deg"; });
    has("turntable-still", [](Turntable& t, Boat&) { t.from = "0 deg"; });
    has("turntable-still", [](Turntable& t, Boat&) { t.from = t.to = "30 deg", t.angle = "30 deg"; });
    EXPECT_EQ(codes([](Turntable& t, Boat&) { t.to = "1 deg"; }).find("turntable-still"), std::string::npos);
    has("mechanism-pose-outside", [](Turntable& t, Boat&) { t.to = "20 deg", t.angle = "30 deg"; });
    has("ring-sheet", [](Turntable&, Boat& boat) { boat.project.stock.sheets[0].width = "50 mm"; });
    has("ring-narrow", [](Turntable& t, Boat&) { t.ring_width = "20 mm"; });
    has("ring-slim", [](Turntable& t, Boat&) { t.ring_width = "40 mm"; });
    has("ring-seat-lost", [](Turntable& t, Boat&) { t.lip = "5 mm"; });
    has("ring-cap-lost", [](Turntable& t, Boat&) { t.overlap = "2 mm"; });
    has("ring-size", [](Turntable& t, Boat&) { t.gap = "-1 mm"; });
    has("turntable-deck-small", [](Turntable& t, Boat&) { t.diameter = "2.6 m"; });
    has("turntable-no-deck", [](Turntable& t, Boat&) { t.at.z = "2 m"; });
    has("turntable-seat-uneven", [](Turntable& t, Boat&) { t.at.roll = "2 deg"; });
    has("carries-no-plate", [](Turntable& t, Boat&) { t.carries = {"nobody/*"}; });
    has("carried-joined", [](Turntable& t, Boat&) { t.carries = {"lamp house/top"}; });
}

TEST(Turntable, ASizeThatIsNoneIsTellingItsField) {
    for (const auto& [field, member] :
         {std::pair("gap", &Turntable::gap), std::pair("overlap", &Turntable::overlap),
          std::pair("ring_width", &Turntable::ring_width)}) {
        Boat boat;
        Turntable t = lampTable();
        t.*member = "0";
        boat.project.mechanisms.turntables = {t};
        boat.make();
        const Finding* told = boat.finding("ring-size");
        ASSERT_TRUE(told) << field << boat.told();
        EXPECT_EQ(told->about.back(), std::string("document:/mechanisms/turntables/0/") + field);
        boat.project.mechanisms.turntables[0].*member = ""; // as the remedy says
        boat.make();
        EXPECT_FALSE(boat.finding("ring-size")) << field;
    }
}

} // namespace
} // namespace slab
