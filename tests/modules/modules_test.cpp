// What comes off as one: sizes, mass, ties, passages.
#include "core/body/skin.h"
#include "core/modules/modules.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

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
    const ModuleSet set = measureModules(boat(), stockOf(), {house()}, {});
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
    const ModuleSet set = measureModules(boat(), stockOf(), {house()}, {});
    ASSERT_EQ(set.modules[0].ties.size(), 1U);
    EXPECT_EQ(set.modules[0].ties[0], (std::pair<std::string, std::string>("house/front", "hull/deck")));
    EXPECT_TRUE(told(set, "module-tied"));
    PlateSet loose = boat();
    loose.joints[2].kind = JointKind::open;
    EXPECT_FALSE(told(measureModules(loose, stockOf(), {house()}, {}), "module-tied"));
}

TEST(Modules, WhatBelongsToAPlateGoesWithIt) {
    Module deck;
    deck.name = "deck";
    deck.plates = {"hull/deck"};
    const ModuleSet set = measureModules(boat(), stockOf(), {deck}, {});
    EXPECT_EQ(set.modules[0].plates, (std::vector<std::string>{"hull/deck", "hull/deck/strip"}));
}

TEST(Modules, PassagesTakeModulesAndTheRest) {
    const std::vector<PassageSize> door{{"shed door", 700, 1900}}, slot{{"slot", 300, 300}};
    ModuleSet set = measureModules(boat(), stockOf(), {house()}, door);
    for (const ModuleInfo& m : set.modules) {
        ASSERT_EQ(m.passings.size(), 1U);
        EXPECT_TRUE(m.passings[0].passes());
    }
    EXPECT_FALSE(told(set, "passage-too-small"));
    // 512 × 400 × 400: the smallest face needs 400 both ways
    set = measureModules(boat(), stockOf(), {house()}, slot);
    EXPECT_FALSE(set.modules[0].passings[0].passes());
    EXPECT_NEAR(set.modules[0].passings[0].way.margin, -100, 1);
    EXPECT_TRUE(told(set, "passage-too-small"));
    // and with no module at all the body is tried
    set = measureModules(boat(), stockOf(), {}, door);
    ASSERT_EQ(set.modules.size(), 1U);
    EXPECT_EQ(set.modules[0].passings.size(), 1U);
}

TEST(Modules, WrongEntriesAreTold) {
    Module none, both = house();
    none.name = "mast";
    none.plates = {"mast/*"};
    both.name = "cabin";
    EXPECT_TRUE(told(measureModules(boat(), stockOf(), {none}, {}), "module-empty"));
    EXPECT_TRUE(told(measureModules(boat(), stockOf(), {house(), both}, {}), "module-shared"));
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
