// What comes off as one: sizes, mass, ties, passages.
#include "core/body/skin.h"
#include "core/modules/modules.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

Plate blockPlate(const std::string& name, const Vec3& min, const Vec3& max,
                 const std::string& stock = "ply") {
    Plate p;
    p.name = name;
    p.stock = stock;
    p.thickness = 12;
    p.solid = makeBox(min, max);
    p.volume = volume(p.solid);
    return p;
}

JointInfo joint(const std::string& a, const std::string& b, JointKind kind) {
    JointInfo j;
    j.a = a;
    j.b = b;
    j.kind = kind;
    return j;
}

StockSet stockOf() {
    StockSet set;
    Sheet ply, foam;
    ply.name = "ply";
    ply.density = 600;
    foam.name = "foam";
    foam.density = 30;
    set.sheets = {ply, foam};
    return set;
}

/// A deck with a house on it, and a strip behind the deck.
PlateSet boat() {
    PlateSet set;
    set.plates = {blockPlate("hull/deck", {0, -400, 400}, {2000, 400, 412}),
                  blockPlate("house/front", {1000, -200, 412}, {1012, 200, 800}),
                  blockPlate("house/back", {500, -200, 412}, {512, 200, 800}, "foam"),
                  blockPlate("house/roof", {500, -200, 800}, {1012, 200, 812}),
                  blockPlate("hull/deck/strip", {960, -300, 388}, {1040, 300, 400})};
    set.joints = {joint("house/roof", "house/front", JointKind::mitre),
                  joint("house/roof", "house/back", JointKind::cover),
                  joint("house/front", "hull/deck", JointKind::cover),
                  joint("house/back", "hull/deck", JointKind::open)};
    return set;
}

bool told(const ModuleSet& set, const std::string& code) {
    return std::any_of(set.findings.begin(), set.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

Module house() {
    Module m;
    m.name = "house";
    m.plates = {"house/*"};
    return m;
}

} // namespace

TEST(Modules, SizeMassAndCentre) {
    const ModuleSet set = measureModules({boat(), stockOf()}, {house()}, {});
    ASSERT_EQ(set.modules.size(), 2U);
    const ModuleInfo& m = set.modules[0];
    EXPECT_EQ(m.plates, (std::vector<std::string>{"house/front", "house/back", "house/roof"}));
    EXPECT_TRUE((m.bounds.size() - Vec3(512, 400, 400)).norm() < 1e-9);
    const double front = 12.0 * 400 * 388 * 600e-9, back = front * 30 / 600, roof = 512.0 * 400 * 12 * 600e-9;
    EXPECT_NEAR(m.mass, front + back + roof, 1e-9);
    EXPECT_NEAR(m.centre.x(), (front * 1006 + back * 506 + roof * 756) / m.mass, 1e-6);
    EXPECT_NEAR(m.centre.y(), 0, 1e-9);
    EXPECT_NEAR(m.centre.z(), ((front + back) * 606 + roof * 806) / m.mass, 1e-6);
    EXPECT_NEAR(m.box.size.x(), 512, 1e-3);
    EXPECT_TRUE(set.modules[1].name.empty());
    EXPECT_EQ(set.modules[1].plates, (std::vector<std::string>{"hull/deck", "hull/deck/strip"}));
}

TEST(Modules, GluedJointsHoldItAndOpenOnesDoNot) {
    const ModuleSet set = measureModules({boat(), stockOf()}, {house()}, {});
    ASSERT_EQ(set.modules[0].ties.size(), 1U);
    EXPECT_EQ(set.modules[0].ties[0], (std::pair<std::string, std::string>("house/front", "hull/deck")));
    EXPECT_TRUE(told(set, "module-tied"));
    PlateSet loose = boat();
    loose.joints[2].kind = JointKind::open;
    EXPECT_FALSE(told(measureModules({loose, stockOf()}, {house()}, {}), "module-tied"));
}

TEST(Modules, WhatBelongsToAPlateGoesWithIt) {
    Module deck;
    deck.name = "deck";
    deck.plates = {"hull/deck"};
    const ModuleSet set = measureModules({boat(), stockOf()}, {deck}, {});
    EXPECT_EQ(set.modules[0].plates, (std::vector<std::string>{"hull/deck", "hull/deck/strip"}));
}

TEST(Modules, PassagesTakeModulesAndTheRest) {
    const std::vector<PassageSize> door{{"shed door", 700, 1900}}, slot{{"slot", 300, 300}};
    ModuleSet set = measureModules({boat(), stockOf()}, {house()}, door);
    for (const ModuleInfo& m : set.modules) {
        ASSERT_EQ(m.passings.size(), 1U);
        EXPECT_TRUE(m.passings[0].passes());
    }
    EXPECT_FALSE(told(set, "passage-too-small"));
    // 512 × 400 × 400: the smallest face needs 400 both ways
    set = measureModules({boat(), stockOf()}, {house()}, slot);
    EXPECT_FALSE(set.modules[0].passings[0].passes());
    EXPECT_NEAR(set.modules[0].passings[0].way.margin, -100, 1);
    EXPECT_TRUE(told(set, "passage-too-small"));
    // and with no module at all the body is tried
    set = measureModules({boat(), stockOf()}, {}, door);
    ASSERT_EQ(set.modules.size(), 1U);
    EXPECT_EQ(set.modules[0].passings.size(), 1U);
}

TEST(Modules, WrongEntriesAreTold) {
    Module none, both = house();
    none.name = "mast";
    none.plates = {"mast/*"};
    both.name = "cabin";
    EXPECT_TRUE(told(measureModules({boat(), stockOf()}, {none}, {}), "module-empty"));
    EXPECT_TRUE(told(measureModules({boat(), stockOf()}, {house(), both}, {}), "module-shared"));
    Project project;
    Passage bad;
    bad.name = "door";
    bad.width = "0 mm";
    bad.height = "2 m";
    project.passages = {bad};
    std::vector<Finding> findings;
    EXPECT_TRUE(resolvePassages(project, {}, findings).empty());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].code, "passage-size");
}

TEST(Modules, WhatHasNoDensityIsNotWeighed) {
    PlateSet set;
    set.plates = {blockPlate("lid/top", {0, 0, 0}, {500, 400, 12}),
                  blockPlate("lid/rim", {0, 0, 12}, {9, 400, 30})};
    StockSet stock = stockOf();
    for (Sheet& sheet : stock.sheets) sheet.density = 0;
    const ModuleSet out = measureModules({set, stock, {}}, {}, {});
    ASSERT_EQ(out.modules.size(), 1U);
    EXPECT_EQ(out.modules[0].mass, 0);
    EXPECT_EQ(out.modules[0].unweighed, std::vector<std::string>{"what is cut from ply"}); // told once
}

// Box 12 × 400 × 388 with a cylinder of 3 kg on end on it: heights of the centre by masses.
TEST(Modules, BoughtPartsCountInSizeMassAndPassage) {
    PlateSet set;
    set.plates = {blockPlate("lamp/base", {-200, -200, 0}, {200, 200, 12}),
                  blockPlate("hull/deck", {-500, -400, -12}, {500, 400, 0})};
    set.plates.own(0).form = "lamp";
    BoughtPart tube = boughtCylinder("lamp", "tube", makeCylinder({0, 0, 12}, {0, 0, 812}, 100));
    tube.mass = 3;
    const BoughtPart drum = boughtCylinder("lamp", "drum", makeCylinder({0, 300, 0}, {0, 300, 10}, 50));
    BoughtPart weight = boughtCylinder("boom", "rear weight", {ConvexSolid::Kind::hull, {{0, 0, 900}}, 0});
    weight.on = "lamp";
    weight.mass = 0.5;
    Module lamp;
    lamp.name = "lamp";
    lamp.plates = {"lamp/base"};
    const std::vector<PassageSize> doors{{"wide", 405, 905}, {"narrow", 395, 905}};
    const ModuleSet out = measureModules({set, stockOf(), {tube, drum, weight}}, {lamp}, doors);
    ASSERT_EQ(out.modules.size(), 2U);
    const ModuleInfo& m = out.modules[0];
    EXPECT_EQ(m.bought, (std::vector<std::string>{"lamp/tube", "lamp/drum", "boom/rear weight"}));
    EXPECT_EQ(m.unweighed, std::vector<std::string>{"lamp/drum"});
    const double base = 400.0 * 400 * 12 * 600e-9;
    EXPECT_NEAR(m.mass, base + 3.5, 1e-12);
    EXPECT_LT((m.centre - Vec3(0, 0, (base * 6 + 3 * 412 + 0.5 * 900) / m.mass)).norm(), 1e-9);
    EXPECT_LT((m.bounds.min - Vec3(-200, -200, 0)).norm(), 1e-9);
    EXPECT_LT((m.bounds.max - Vec3(200, 350, 900)).norm(), 1e-9);
    EXPECT_EQ(out.modules[1].bought.size(), 0U);
    EXPECT_TRUE(out.modules[1].plates == std::vector<std::string>{"hull/deck"});
    // Along its 550 (the drum stands out by 150) it needs 400 × 900; leaned, no less than 396 × 900.
    EXPECT_GE(m.passings[0].way.margin, 5 - 1e-6);
    EXPECT_FALSE(m.passings[1].passes());
}

// A cylinder alone: its least box is diameter × diameter × length, it passes a square of its diameter, and
// nothing that is narrower than it is in any direction.
TEST(Modules, ACylindersBoxAndPassageAgainstTheClosedForm) {
    auto random = seeded(61);
    for (int round = 0; round < 40 / slowdown; ++round) {
        const double radius = uniform(random, 20, 200), length = uniform(random, 50, 900);
        const Vec3 axis =
            Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, 0.1, 1)).normalized();
        const Vec3 from(uniform(random, -500, 500), uniform(random, -500, 500), uniform(random, 0, 500));
        BoughtPart tube = boughtCylinder("pipe", "tube", makeCylinder(from, from + length * axis, radius));
        tube.mass = uniform(random, 0.1, 9);
        const PlateSet none;
        const double over = 1 / std::cos(std::numbers::pi / 64); // facets stand outside
        const ModuleSet out =
            measureModules({none, stockOf(), {tube}}, {},
                           {{"own size", 2 * radius * over + 1e-3, 2 * radius * over + 1e-3},
                            {"too small", std::min(2 * radius, length) - 1, length + 2 * radius}});
        ASSERT_EQ(out.modules.size(), 1U);
        const ModuleInfo& m = out.modules[0];
        EXPECT_EQ(m.mass, *tube.mass);
        EXPECT_LT((m.centre - (from + length / 2 * axis)).norm(), 1e-9);
        // reach of a circle with unit normal n along a direction d: r √(1 − (n·d)²)
        for (int d = 0; d < 3; ++d)
            EXPECT_NEAR(m.bounds.size()[d],
                        length * std::abs(axis[d]) + 2 * radius * std::sqrt(1 - axis[d] * axis[d]), 1e-9);
        EXPECT_LE(m.box.size.prod(), 4 * radius * radius * length * over * over * (1 + 1e-6));
        EXPECT_GE(m.box.size.prod(), 4 * radius * radius * length * (1 - 1e-9));
        EXPECT_TRUE(m.passings[0].passes()) << m.passings[0].way.margin;
        EXPECT_FALSE(m.passings[1].passes());
    }
}

// Whatever modules take: every bought part is in just one, masses add up, and each box holds its parts.
TEST(Modules, BoughtPartsAreSharedOutOnce) {
    auto random = seeded(62);
    for (int round = 0; round < 30 / slowdown; ++round) {
        PlateSet set = boat();
        set.plates.ownEach([](Plate& p) { p.form = p.name.substr(0, p.name.find('/')); });
        std::vector<BoughtPart> parts;
        for (int i = 0; i < 6; ++i) {
            const char* owners[] = {"hull", "house", "boom", "crane"};
            const Vec3 at(uniform(random, 0, 2000), uniform(random, -400, 400), uniform(random, 400, 900));
            BoughtPart part = boughtCylinder(
                owners[below(random, 4)], "part " + std::to_string(i),
                makeCylinder(at, at + Vec3(0, uniform(random, 10, 300), 0), uniform(random, 5, 90)));
            if (below(random, 2)) part.mass = uniform(random, 0.1, 5);
            if (below(random, 2)) part.on = owners[below(random, 2)];
            parts.push_back(part);
        }
        Module boom;
        boom.name = "boom";
        boom.plates = {"boom/*"};
        const ModuleSet out = measureModules({set, stockOf(), parts}, {house(), boom}, {});
        const ModuleSet bare = measureModules({set, stockOf()}, {}, {});
        double mass = 0, known = bare.modules[0].mass;
        std::size_t bought = 0, unknown = 0;
        for (const ModuleInfo& m : out.modules) {
            mass += m.mass;
            bought += m.bought.size();
            for (const BoughtPart& part : parts) {
                if (std::find(m.bought.begin(), m.bought.end(), part.name) == m.bought.end()) continue;
                EXPECT_EQ(united(m.bounds, bounds(part)), m.bounds);
                const bool carried = part.owner == "crane" && part.on == "house";
                EXPECT_EQ(m.name == "house", part.owner == "house" || carried);
                EXPECT_EQ(m.name == "boom", part.owner == "boom");
            }
        }
        for (const BoughtPart& part : parts) known += part.mass.value_or(0);
        for (const ModuleInfo& m : out.modules) unknown += m.unweighed.size();
        EXPECT_EQ(bought, parts.size());
        EXPECT_NEAR(mass, known, 1e-9);
        EXPECT_EQ(unknown, static_cast<std::size_t>(std::count_if(parts.begin(), parts.end(),
                                                                  [](const auto& p) { return !p.mass; })));
    }
}

TEST(Modules, CentreOfSolidsAgainstClosedForms) {
    EXPECT_TRUE((centreOf(makeBox({1, 2, 3}, {5, 4, 9})) - Vec3(3, 3, 6)).norm() < 1e-12);
    // a tetrahedron's is the mean of its corners
    Polyhedron t;
    t.vertices = {{0, 0, 0}, {4, 0, 0}, {0, 8, 0}, {0, 0, 12}};
    for (const std::vector<int>& loop : {std::vector<int>{0, 2, 1}, std::vector<int>{0, 1, 3},
                                         std::vector<int>{1, 2, 3}, std::vector<int>{0, 3, 2}}) {
        PolyFace f;
        f.loops = {loop};
        f.plane.normal =
            (t.vertices[static_cast<std::size_t>(loop[1])] - t.vertices[static_cast<std::size_t>(loop[0])])
                .cross(t.vertices[static_cast<std::size_t>(loop[2])] -
                       t.vertices[static_cast<std::size_t>(loop[0])])
                .normalized();
        t.faces.push_back(f);
    }
    EXPECT_TRUE((centreOf(t) - Vec3(1, 2, 3)).norm() < 1e-12);
}
