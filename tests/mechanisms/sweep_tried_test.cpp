// Every change that is advised is made to the document, and clears what it is told to clear: closed forms by
// hand, and seeded documents.
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <regex>

namespace slab {

namespace {

FitSolid standing(const std::string& name, const Vec3& min, const Vec3& max) {
    return {name, "donor", makeBoxSolid(min, max), 20, false, {}};
}
std::vector<Finding> sweptTooNear(const Boat& boat) {
    std::vector<Finding> out;
    for (const Finding& f : boat.set.findings)
        if (f.code.rfind("sweep-", 0) == 0) out.push_back(f);
    return out;
}
double figureOf(const std::string& text, const std::string& pattern) {
    std::smatch found;
    return std::regex_search(text, found, std::regex(pattern)) ? std::stod(found[1]) : 0;
}
Text plus(const Text& text, double mm) {
    return (text.empty() ? "0 mm" : text) + (mm < 0 ? " - " : " + ") + std::to_string(std::abs(mm)) + " mm";
}

/// The document with one sentence's first ways made, one at a time. Bodies that stand on a turntable and its
/// deck go with it by the caller's own means: such ways are left out.
std::vector<std::pair<std::string, Boat>> made(const Boat& boat, const std::string& remedy) {
    std::vector<std::pair<std::string, Boat>> out;
    const auto offer = [&](const std::string& pattern, const auto& change) {
        std::smatch found;
        if (!std::regex_search(remedy, found, std::regex(pattern, std::regex::icase))) return;
        Boat next = boat;
        next.set = {};
        change(next.project.mechanisms, found);
        out.emplace_back(found[0], std::move(next));
    };
    const auto trunnion = [](Mechanisms& m) -> Trunnion& { return m.trunnions.front(); };
    offer("raise boom's pivot by at least (\\d+) mm", [&](Mechanisms& m, const std::smatch& f) {
        trunnion(m).at.z = plus(trunnion(m).at.z, std::stod(f[1]));
    });
    offer("keep boom's elevation between (-?\\d+)° and (-?\\d+)°", [&](Mechanisms& m, const std::smatch& f) {
        trunnion(m).lowest = f[1].str() + " deg";
        trunnion(m).highest = f[2].str() + " deg";
    });
    offer("make boom at least (\\d+) mm shorter ahead", [&](Mechanisms& m, const std::smatch& f) {
        trunnion(m).front = plus(trunnion(m).front, -std::stod(f[1]));
    });
    offer("make boom at least (\\d+) mm shorter behind", [&](Mechanisms& m, const std::smatch& f) {
        trunnion(m).rear = plus(trunnion(m).rear, -std::stod(f[1]));
    });
    offer("give lamp stops at (-?\\d+)° and (-?\\d+)°", [&](Mechanisms& m, const std::smatch& f) {
        m.turntables.front().from = f[1].str() + " deg";
        m.turntables.front().to = f[2].str() + " deg";
    });
    offer("make lamp's drum at least (\\d+) mm shallower", [&](Mechanisms& m, const std::smatch& f) {
        m.turntables.front().depth = plus(m.turntables.front().depth, -std::stod(f[1]));
    });
    offer("move lamp[a-z ]* (forward|back) by at least (\\d+) mm", [&](Mechanisms& m, const std::smatch& f) {
        const double by = std::stod(f[2]) * (f[1] == "forward" ? 1 : -1);
        m.turntables.front().at.x = plus(m.turntables.front().at.x, by);
        for (Trunnion& t : m.trunnions) t.at.x = plus(t.at.x, by);
    });
    offer("move boom (up|down) by at least (\\d+) mm", [&](Mechanisms& m, const std::smatch& f) {
        trunnion(m).at.z = plus(trunnion(m).at.z, std::stod(f[2]) * (f[1] == "up" ? 1 : -1));
    });
    return out;
}

Boat boomOnLamp() {
    Boat boat;
    boat.project.mechanisms.turntables = {lampTable()};
    Trunnion boom = monitor();
    boom.name = "boom";
    boom.on = "lamp";
    boom.at.z = "720 mm";
    boom.front = "500 mm";
    boom.rear = "150 mm";
    boom.lowest = "0 deg";
    boom.highest = "10 deg";
    boat.project.mechanisms.trunnions = {boom};
    return boat;
}

// A motor's top 20 below where a drum of that depth ends wants 20: as much shallower as it stands into that.
TEST(SweepTried, ADrumIsMadeAsMuchShallowerAsTheMotorBelowNeeds) {
    Boat boat;
    Turntable t = lampTable();
    t.sides = "8";
    t.drum_stock = "ply_12";
    boat.project.mechanisms.turntables = {t};
    boat.make();
    double low = 1e9;
    for (const Plate& p : boat.plates.plates)
        if (p.name == "lamp/floor")
            for (const ConvexSolid& s : p.cells) low = std::min(low, bounds(s).min.z());
    ASSERT_LT(low, 600) << boat.told();
    const FitSolid motor = standing("donor/motor", {-80, -80, 150}, {80, 80, low + 3});
    boat.make({motor});
    const auto told = sweptTooNear(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    EXPECT_EQ(figureOf(told[0].remedy, "drum at least (\\d+) mm shallower"), 23) << told[0].remedy;
    for (auto& [words, next] : made(boat, told[0].remedy)) {
        next.make({motor});
        EXPECT_TRUE(sweptTooNear(next).empty()) << words << "\n" << next.told();
    }
}

// A level tube of radius 45 whose pivot is 40 over the lamp's cap wants 5 over it.
TEST(SweepTried, APivotIsRaisedToClearWhatItTurnsOver) {
    Boat boat = boomOnLamp();
    boat.make();
    const double cap = 600 + boat.fact("cap_top");
    boat.project.mechanisms.trunnions[0].at.z = std::to_string(cap + 40) + " mm";
    boat.project.mechanisms.trunnions[0].highest = "0 deg";
    boat.make();
    const auto told = sweptTooNear(boat);
    ASSERT_FALSE(told.empty()) << boat.told();
    EXPECT_EQ(figureOf(told[0].remedy, "aise boom's pivot by at least (\\d+) mm"), 10) << told[0].remedy;
}

// Belts that stand as deep in the sides as they are wide go out by as much as they stand in, on both sides.
TEST(SweepTried, MirroredBeltsGoOutwardOnBothSides) {
    Boat boat;
    Belt belt;
    belt.name = "belt";
    belt.stock = "ply_12";
    belt.width = "60 mm";
    belt.pitch = "40 mm";
    belt.mirror = true;
    belt.at.y = "520 mm"; // from 490 to 550; the sides' outer faces are at 500
    for (const double x : {-400.0, 400.0}) {
        BeltWheel w;
        w.name = x < 0 ? "rear" : "front";
        w.x = std::to_string(x) + " mm";
        w.z = "300 mm";
        w.diameter = "200 mm";
        belt.wheels.push_back(w);
    }
    boat.project.mechanisms.belts = {belt};
    boat.make();
    const auto told = sweptTooNear(boat);
    ASSERT_EQ(told.size(), 1U) << boat.told();
    const double by = figureOf(told[0].remedy, "on both sides outward by at least (\\d+) mm");
    EXPECT_EQ(by, 10) << told[0].remedy;
    for (const double out : {by, by - 1}) {
        Boat next = boat;
        next.set = {};
        next.project.mechanisms.belts[0].at.y = std::to_string(520 + out) + " mm";
        next.make();
        EXPECT_EQ(sweptTooNear(next).empty(), out == by) << out << next.told();
    }
}

// What stands on the deck goes up with it: a kerb there is cleared by setting the house higher, by as much as
// it stands below the kerb's top and the gap, not by lifting the deck.
TEST(SweepTried, ADeckTakesWhatStandsOnItAlong) {
    Boat boat;
    boat.add("lamp house", makeBox({-330, -60, 630}, {330, 60, 900}));
    boat.leaveOut("lamp house/bottom");
    boat.add("kerb", makeBox({310, -200, 600}, {390, 200, 640}));
    Turntable t = lampTable();
    t.carries = {"lamp house/*"};
    boat.project.mechanisms.turntables = {t};
    boat.make();
    const auto told = sweptTooNear(boat);
    ASSERT_FALSE(told.empty()) << boat.told();
    EXPECT_EQ(figureOf(told[0].remedy, "et what stands on lamp at least (\\d+) mm higher"), 13)
        << told[0].remedy;
    EXPECT_EQ(told[0].remedy.find("with its deck"), std::string::npos) << told[0].remedy;
}

// A drum beside the hull's side, off the middle, goes back to the middle by what it stands into the side.
TEST(SweepTried, ATurntableOffTheMiddleMayGoAside) {
    Boat boat;
    Turntable t = lampTable();
    t.at.y = "295 mm"; // the drum's side at 495, the hull's inner face at 488, gap 3
    boat.project.mechanisms.turntables = {t};
    boat.make();
    const auto told = sweptTooNear(boat);
    ASSERT_FALSE(told.empty()) << boat.told();
    EXPECT_EQ(figureOf(told[0].remedy, "to starboard by at least (\\d+) mm"), 10) << told[0].remedy;
    EXPECT_EQ(told[0].remedy.find("with its deck"), std::string::npos) << told[0].remedy;
}

TEST(SweepTried, WhatIsAdvisedClears) {
    auto random = seeded(31);
    int tried = 0;
    for (int round = 0; round < 8; ++round) {
        Boat boat = boomOnLamp();
        Trunnion& boom = boat.project.mechanisms.trunnions[0];
        boom.at.z = std::to_string(uniform(random, 690, 800)) + " mm";
        boom.lowest = std::to_string(uniform(random, -12, 0)) + " deg";
        boom.highest = std::to_string(uniform(random, 5, 40)) + " deg";
        boom.front = std::to_string(uniform(random, 300, 800)) + " mm";
        std::vector<FitSolid> solids;
        for (int i = 0; i < 2; ++i) {
            const double a = uniform(random, 0, 6.28), far = uniform(random, 350, 700);
            const Vec3 foot(far * std::cos(a), far * std::sin(a), 650);
            solids.push_back(standing("donor/post " + std::to_string(i), foot - Vec3(30, 30, 0),
                                      foot + Vec3(30, 30, uniform(random, 50, 400))));
        }
        boat.make(solids);
        for (const Finding& f : sweptTooNear(boat))
            for (auto& [words, next] : made(boat, f.remedy)) {
                ++tried;
                next.make(solids);
                const auto left = sweptTooNear(next);
                if (f.remedy.find("That clears this alone.") == std::string::npos)
                    EXPECT_TRUE(left.empty()) << round << ": " << words << "\n" << next.told();
                else
                    EXPECT_LT(left.size(), sweptTooNear(boat).size())
                        << round << ": " << words << next.told();
            }
    }
    EXPECT_GT(tried, 4);
}

} // namespace
} // namespace slab
