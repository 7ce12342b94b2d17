// Openings, round forms and plate forms.
#include "core/plates/facets.h"
#include "core/plates/margins.h"
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

Body box() {
    return bodyOf(makeBox({0, 0, 0}, {1000, 600, 400}));
}

ResolvedOpening hosted(const std::string& plate, Ring outline, Vec2 at = Vec2::Zero()) {
    ResolvedOpening o;
    o.name = "exit";
    o.plate = plate;
    o.outline = std::move(outline);
    o.at = at;
    return o;
}

ResolvedOpening directed(const Vec3& origin, const Vec3& direction, Ring outline) {
    ResolvedOpening o;
    o.name = "tunnel";
    o.origin = origin;
    o.direction = direction;
    o.outline = std::move(outline);
    return o;
}

bool has(const PlateSet& set, const std::string& code) {
    return std::any_of(set.findings.begin(), set.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

double solidVolume(const Plate& p) {
    return volume(p.solid);
}

} // namespace

TEST(Openings, HostedRectangleTakesItsPrism) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    const double before = findPlate(buildPlates(body, rules), "top")->volume;
    rules.openings = {hosted("top", plates::roundedRing(300, 200, 0), {50, -20})};
    const PlateSet set = buildPlates(body, rules);
    const Plate* top = findPlate(set, "top");
    ASSERT_TRUE(top);
    EXPECT_NEAR(before - top->volume, 300 * 200 * 12, 1e-6);
    EXPECT_NEAR(solidVolume(*top), top->volume, 1e-3);
    ASSERT_EQ(top->holes.size(), 1U);
    EXPECT_EQ(top->holes[0].opening, "exit");
    EXPECT_LT(signedArea(top->holes[0].outer), 0);
    EXPECT_NEAR(signedArea(top->holes[0].inner), -60000, 1e-6);
    EXPECT_TRUE((centroid({reversed(top->holes[0].outer), {}}) - Vec2(550, 280)).norm() < 1e-9);
    EXPECT_TRUE(checkClosed(top->solid));
    EXPECT_FALSE(has(set, "opening-misses"));
    EXPECT_TRUE(marginFindings(set, {}, {}, {}).empty());
}

TEST(Openings, CircleKeepsItsChordError) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    const double before = findPlate(buildPlates(body, rules), "top")->volume;
    ResolvedOpening o = hosted("top", plates::circleRing(100));
    o.circle = 200;
    rules.openings = {o};
    const Plate top = *findPlate(buildPlates(body, rules), "top");
    const double taken = (before - top.volume) / 12;
    const double true_ = std::numbers::pi * 100 * 100;
    EXPECT_LT(taken, true_);
    EXPECT_GT(taken, true_ - 2 * std::numbers::pi * 100 * 0.05);
    EXPECT_NEAR(solidVolume(top), top.volume, 1e-2);
    EXPECT_TRUE(checkClosed(top.solid));
}

TEST(Openings, ConcavePolygonIsCutWhole) {
    const Body body = box();
    PlateRules rules = evenRules(body, 9);
    const double before = findPlate(buildPlates(body, rules), "port")->volume;
    const Ring ell{{0, 0}, {200, 0}, {200, 50}, {50, 50}, {50, 150}, {0, 150}};
    rules.openings = {hosted("port", ell)};
    const Plate port = *findPlate(buildPlates(body, rules), "port");
    EXPECT_NEAR(before - port.volume, 9 * area(Polygon{ell, {}}), 1e-6);
    ASSERT_EQ(port.holes.size(), 1U);
    EXPECT_EQ(port.holes[0].outer.size(), 6U);
}

TEST(Openings, DirectedPrismCutsBothSidesAndNothingElse) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    const PlateSet plain = buildPlates(body, rules);
    rules.openings = {directed({500, 0, 200}, {0, 1, 0}, plates::roundedRing(200, 100, 0))};
    const PlateSet set = buildPlates(body, rules);
    for (const Plate& p : set.plates) {
        const bool side = p.name == "port" || p.name == "starboard";
        EXPECT_NEAR(findPlate(plain, p.name)->volume - p.volume, side ? 200 * 100 * 12 : 0, 1e-6) << p.name;
    }
    rules.openings[0].plates = {"po*"};
    EXPECT_TRUE(findPlate(buildPlates(body, rules), "starboard")->holes.empty());
    EXPECT_EQ(findPlate(buildPlates(body, rules), "port")->holes.size(), 1U);
}

TEST(Openings, AlikeOnesInRowsKeepTheirOwnNames) {
    // Four alike: each shares the plane of every wall with a neighbour.
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    for (const double x : {-200.0, 200.0})
        for (const double y : {-100.0, 100.0}) {
            rules.openings.push_back(hosted("top", plates::roundedRing(80, 60, 0), {x, y}));
            rules.openings.back().name = (x < 0 ? "aft " : "fore ") + std::string(y < 0 ? "low" : "high");
        }
    const Plate top = *findPlate(buildPlates(body, rules), "top");
    ASSERT_EQ(top.holes.size(), 4U);
    const Vec2 middle = (bounds(top.boundary.outer).min + bounds(top.boundary.outer).max) / 2;
    for (const PanelLoop& hole : top.holes) {
        const Vec2 at = centroid({reversed(hole.outer), {}}) - middle;
        EXPECT_EQ(hole.opening, (at.x() < 0 ? "aft " : "fore ") + std::string(at.y() < 0 ? "low" : "high"));
    }
}

TEST(Openings, ThroughAnEdgeMakesTwoEdgesOfTheJoint) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.openings = {directed({500, 0, 400}, {0, 1, 0}, plates::roundedRing(200, 100, 0))};
    const PlateSet set = buildPlates(body, rules);
    const Plate* port = findPlate(set, "port");
    EXPECT_TRUE(port->holes.empty());
    const auto meets = std::count_if(port->boundary.edges.begin(), port->boundary.edges.end(),
                                     [](const PanelEdge& e) { return e.neighbour == "top"; });
    EXPECT_EQ(meets, 2);
    for (const PanelEdge& e : port->boundary.edges) {
        if (e.neighbour == "top") {
            EXPECT_NEAR(e.length, 400, 1e-9);
            EXPECT_GE(e.inner, 0);
        }
    }
}

TEST(Openings, SquareAndParallelWallsOnASlope) {
    // a wedge whose slope leans 45°: a prism along x meets it at 45°
    const Body body =
        bodyOf(hullOf({{0, 0, 0}, {400, 0, 0}, {0, 500, 0}, {400, 500, 0}, {0, 0, 400}, {0, 500, 400}}));
    PlateRules rules = evenRules(body, 10);
    const auto slope = [](const PlateSet& set) {
        for (const Plate& p : set.plates)
            if (p.frame.axes.col(2).x() > 0.5) return p;
        return Plate{};
    };
    const double before = slope(buildPlates(body, rules)).volume;
    ResolvedOpening o = directed({0, 250, 200}, {1, 0, 0}, plates::roundedRing(100, 60, 0));
    rules.openings = {o};
    Plate square = slope(buildPlates(body, rules));
    rules.openings[0].parallelWalls = true;
    Plate parallel = slope(buildPlates(body, rules));
    // both take 100 × 60√2 × 10: the parallel one is sheared, not narrower
    EXPECT_NEAR(before - square.volume, 100 * 60 * std::numbers::sqrt2 * 10, 1e-5);
    EXPECT_NEAR(before - parallel.volume, 100 * 60 * std::numbers::sqrt2 * 10, 1e-5);
    for (const PanelEdge& e : square.holes.at(0).edges) EXPECT_NEAR(e.bevel, 0, 1e-9);
    int leaning = 0;
    for (const PanelEdge& e : parallel.holes.at(0).edges)
        leaning += std::abs(std::abs(e.bevel) - std::numbers::pi / 4) < 1e-9;
    EXPECT_EQ(leaning, 2);
}

TEST(Openings, FindingsAndTheirRemedies) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.openings = {hosted("nowhere", plates::roundedRing(100, 100, 0))};
    EXPECT_TRUE(has(buildPlates(body, rules), "opening-misses"));
    rules.openings = {hosted("top", plates::roundedRing(100, 100, 0), {0, 245})};
    EXPECT_EQ(marginFindings(buildPlates(body, rules), {}, {}, {}).size(), 1U);
    rules.openings[0].at = {0, 190}; // the inside edge lies a thickness further in
    EXPECT_TRUE(marginFindings(buildPlates(body, rules), {}, {}, {}).empty());
    rules.openings = {hosted("top", plates::roundedRing(50, 900, 0))};
    const PlateSet halves = buildPlates(body, rules);
    EXPECT_TRUE(has(halves, "opening-loosens-piece"));
    EXPECT_TRUE(findPlate(halves, "top#2"));
    rules.openings = {hosted("top", plates::roundedRing(50, 400, 0))};
    EXPECT_FALSE(has(buildPlates(body, rules), "opening-loosens-piece"));
}

TEST(Openings, OneThatTakesAWholePlateSaysSoItself) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.openings = {hosted("top", plates::roundedRing(2000, 2000, 0))};
    const PlateSet set = buildPlates(body, rules);
    EXPECT_FALSE(findPlate(set, "top"));
    ASSERT_TRUE(has(set, "opening-takes-plate"));
    EXPECT_FALSE(has(set, "plate-vanishes")) << "the neighbours took nothing of it";
}

TEST(RoundForms, CutTheirOwnHoleWithGap) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    const double before = findPlate(buildPlates(body, rules), "top")->volume;
    body.rounds = {{"stack", {500, 300, 200}, {500, 300, 700}, 50, 50, 3, 1, true, ""}};
    const PlateSet set = buildPlates(body, rules);
    const Plate* top = findPlate(set, "top");
    const double area = (before - top->volume) / 12;
    EXPECT_NEAR(area, std::numbers::pi * 51 * 51, 2 * std::numbers::pi * 51 * 0.05);
    ASSERT_EQ(top->holes.size(), 1U);
    EXPECT_EQ(top->holes[0].opening, "stack");
    body.rounds[0].base.z() = 400; // stands on the roof: nothing to cut
    EXPECT_TRUE(findPlate(buildPlates(body, rules), "top")->holes.empty());
    body.rounds[0].base.z() = 200;
    body.rounds[0].cuts = false;
    EXPECT_TRUE(findPlate(buildPlates(body, rules), "top")->holes.empty());
}

TEST(RoundForms, ObliqueHoleIsAnEllipse) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    const double before = findPlate(buildPlates(body, rules), "top")->volume;
    body.rounds = {{"mast", {400, 300, 300}, {600, 300, 500}, 40, 40, 0, 0, true, ""}};
    const Plate top = *findPlate(buildPlates(body, rules), "top");
    EXPECT_NEAR((before - top.volume) / 12, std::numbers::pi * 40 * 40 * std::numbers::sqrt2,
                2 * std::numbers::pi * 40 * 0.05 * std::numbers::sqrt2);
    const Box2 hole = bounds(top.holes.at(0).outer);
    EXPECT_NEAR(hole.size().x(), 80 * std::numbers::sqrt2, 0.2);
    EXPECT_NEAR(hole.size().y(), 80, 0.2);
}

TEST(PlateForms, StandOnAnotherPlate) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    FreePlate fin;
    fin.name = "fin/plate";
    fin.form = "fin";
    fin.frame.origin = {200, 300, 400};
    fin.frame.axes.col(0) = Vec3::UnitX();
    fin.frame.axes.col(1) = Vec3::UnitZ();
    fin.frame.axes.col(2) = Vec3::UnitX().cross(Vec3::UnitZ());
    fin.outline.outer = {{0, 0}, {300, 0}, {200, 150}, {100, 150}};
    body.plates = {fin};
    rules.freePlates = {{"ply", 6, 0}};
    const PlateSet set = buildPlates(body, rules);
    const Plate* plate = findPlate(set, "fin/plate");
    ASSERT_TRUE(plate);
    EXPECT_EQ(plate->face, -1);
    EXPECT_NEAR(plate->volume, 6 * 150 * 200, 1e-6);
    const PanelEdge* foot = findEdge(*plate, "top");
    ASSERT_TRUE(foot);
    EXPECT_EQ(foot->role, EdgeRole::rests);
    EXPECT_TRUE(set.overlaps.empty());

    body.plates[0].frame.origin.z() = 395; // 5 mm into the roof
    const PlateSet deep = buildPlates(body, rules);
    ASSERT_EQ(deep.overlaps.size(), 1U);
    EXPECT_NEAR(deep.overlaps[0].volume, 6 * 5 * (300 - 5 * 200.0 / 150 / 2), 1e-6);
    EXPECT_TRUE(has(deep, "plates-overlap"));
}

TEST(PlateForms, LyingFlatRestWithTheirFace) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    FreePlate rail; // on the roof, its inside face down
    rail.name = "rail/plate";
    rail.form = "rail";
    rail.frame.origin = {100, 100, 403};
    rail.outline.outer = {{0, 0}, {300, 0}, {300, 40}, {0, 40}};
    body.plates = {rail};
    rules.freePlates = {{"ply", 3, 0}};
    const PlateSet set = buildPlates(body, rules);
    const Plate* plate = findPlate(set, "rail/plate");
    ASSERT_TRUE(plate);
    ASSERT_EQ(plate->rests.size(), 1U);
    const int mark = plate->rests[0].mark;
    EXPECT_GT(mark, 0);
    EXPECT_EQ(plate->rests, (std::vector<FaceRest>{{"top", false, false, mark}}));
    for (const PanelEdge& e : plate->boundary.edges) {
        EXPECT_EQ(e.role, EdgeRole::cut);
        EXPECT_EQ(e.neighbour, "");
    }
    for (const Panel& panel : makePanels(set)) {
        const bool isRail = panel.name == "rail/plate";
        EXPECT_EQ(panel.copies.at(0).rests, isRail ? plate->rests : std::vector<FaceRest>{}) << panel.name;
    }
    body.plates[0].frame.origin.z() = 410; // 7 mm clear of the roof
    EXPECT_TRUE(findPlate(buildPlates(body, rules), "rail/plate")->rests.empty());
}
