// Hatches, lap strips, webs beside holes, and joints that openings take away.
#include "../geometry/seed.h"
#include "core/plates/facets.h"
#include "core/plates/lids.h"
#include "core/plates/margins.h"
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::plates;
using namespace slab::test;

namespace {

Body crate() {
    return bodyOf(makeBox({0, 0, 0}, {1000, 600, 400}));
}

ResolvedOpening cutIn(const std::string& plate, Ring outline, Vec2 at = Vec2::Zero()) {
    ResolvedOpening o;
    o.name = "exit";
    o.plate = plate;
    o.outline = std::move(outline);
    o.at = at;
    return o;
}

OpeningUse lidOf(double gap, double lap) {
    OpeningUse use;
    use.opening = "exit";
    use.lid = true;
    use.gap = gap;
    use.lap = lap;
    return use;
}

StockSet plyStock(const std::string& name, const std::string& kind = "plywood") {
    Sheet s;
    s.name = name;
    s.kind = kind;
    s.length = 2440;
    s.width = 1220;
    s.thickness = 12;
    StockSet set;
    set.sheets = {s};
    return set;
}

const Plate* named(const LidSet& lids, const std::string& name) {
    const auto it =
        std::find_if(lids.plates.begin(), lids.plates.end(), [&](const Plate& p) { return p.name == name; });
    return it == lids.plates.end() ? nullptr : &*it;
}

bool told(const std::vector<Finding>& all, const std::string& code) {
    return std::any_of(all.begin(), all.end(), [&](const Finding& f) { return f.code == code; });
}

struct Hatch {
    PlateSet plates;
    LidSet lids;
};
Hatch hatch(const ResolvedOpening& opening, const OpeningUse& use, const Body& body = crate()) {
    PlateRules rules = evenRules(body, 12);
    rules.openings = {opening};
    Hatch out;
    out.plates = buildPlates(body, rules);
    out.lids = makeLids(out.plates, plyStock(rules.faces[0].stock), {use});
    return out;
}

double faceArea(const Plate& p, bool inside) {
    double sum = signedArea(inside ? p.boundary.inner : p.boundary.outer);
    for (const PanelLoop& hole : p.holes) sum += signedArea(inside ? hole.inner : hole.outer);
    return sum;
}

} // namespace

TEST(Lids, ARectangleLessItsGap) {
    const Hatch h = hatch(cutIn("top", roundedRing(300, 200, 0)), lidOf(3, 0));
    const Plate* lid = named(h.lids, "top/exit lid");
    ASSERT_TRUE(lid);
    EXPECT_NEAR(faceArea(*lid, false), 294 * 194, 1e-6);
    EXPECT_NEAR(faceArea(*lid, true), 294 * 194, 1e-6);
    EXPECT_NEAR(lid->volume, 294 * 194 * 12, 1e-4);
    EXPECT_TRUE(checkClosed(lid->solid));
    EXPECT_EQ(h.lids.plates.size(), 1U);
    for (const PanelEdge& e : lid->boundary.edges) EXPECT_NEAR(e.bevel, 0, 1e-12);
    // in the middle of its opening, flush with the outside
    EXPECT_TRUE((bounds(lid->solid).min - Vec3(353, 203, 388)).norm() < 1e-6);
    EXPECT_TRUE((bounds(lid->solid).max - Vec3(647, 397, 400)).norm() < 1e-6);
}

TEST(Lids, SlopingWallsLeanTheSameWay) {
    // a prism along x through a slope of 45°, walls along it
    std::vector<Vec3> wedge{{0, 0, 0},     {400, 0, 0},   {0, 500, 0},
                            {400, 500, 0}, {400, 0, 400}, {400, 500, 400}};
    const Body body = bodyOf(hullOf(wedge));
    PlateRules rules = evenRules(body, 10);
    ResolvedOpening o;
    o.name = "exit";
    o.origin = {0, 250, 200};
    o.direction = {1, 0, 0};
    o.outline = roundedRing(200, 120, 0);
    o.parallelWalls = true;
    rules.openings = {o};
    PlateSet set = buildPlates(body, rules);
    const LidSet lids = makeLids(set, plyStock(rules.faces[0].stock), {lidOf(2, 0)});
    const auto slope = std::find_if(set.plates.begin(), set.plates.end(), [](const Plate& p) {
        const Vec3 w = p.frame.axes.col(2);
        return w.x() < -0.5 && w.z() > 0.5;
    });
    ASSERT_NE(slope, set.plates.end());
    const Plate* lid = named(lids, slope->name + "/exit lid");
    ASSERT_TRUE(lid);
    EXPECT_TRUE(checkClosed(lid->solid));
    // upper and lower walls lean 45°: 2 mm square to them are 2√2 in the face
    const double high = 120 * std::numbers::sqrt2 - 2 * 2 * std::numbers::sqrt2;
    EXPECT_NEAR(faceArea(*lid, false), (200 - 4) * high, 1e-6);
    EXPECT_NEAR(faceArea(*lid, true), (200 - 4) * high, 1e-6);
    int leaning = 0;
    for (const PanelEdge& e : lid->boundary.edges)
        leaning += std::abs(std::abs(e.bevel) - std::numbers::pi / 4) < 1e-9;
    EXPECT_EQ(leaning, 2);
    for (const ConvexSolid& a : lid->cells)
        for (const ConvexSolid& b : slope->cells) EXPECT_GT(nearest(a, b).distance, 2 - 1e-6);
}

TEST(Lids, ACircleStaysClearAllRound) {
    ResolvedOpening o = cutIn("top", circleRing(120));
    o.circle = 240;
    const Hatch h = hatch(o, lidOf(2, 0));
    const Plate* lid = named(h.lids, "top/exit lid");
    ASSERT_TRUE(lid);
    EXPECT_NEAR(faceArea(*lid, false), std::numbers::pi * 118 * 118, 2 * std::numbers::pi * 118 * 0.06);
    for (const Vec2& p : lid->boundary.outer) {
        const Vec3 at = lid->frame.toBody(p);
        EXPECT_NEAR(std::hypot(at.x() - 500, at.y() - 300), 118, 0.06);
    }
}

TEST(Lids, StraightLapStripsAreMitred) {
    const Hatch h = hatch(cutIn("top", roundedRing(300, 200, 0)), lidOf(2, 60));
    ASSERT_EQ(h.lids.plates.size(), 5U);
    double sum = 0;
    for (const char* letter : {"a", "b", "c", "d"}) {
        const Plate* strip = named(h.lids, std::string("top/exit lap ") + letter);
        ASSERT_TRUE(strip);
        EXPECT_EQ(strip->boundary.outer.size(), 4U);
        EXPECT_TRUE(checkClosed(strip->solid));
        sum += faceArea(*strip, false);
        EXPECT_NEAR(bounds(strip->solid).max.z(), 388, 1e-9);
        ASSERT_EQ(strip->rests.size(), 1U);
        EXPECT_EQ(strip->rests[0].plate, "top");
        EXPECT_TRUE(strip->rests[0].outside && strip->rests[0].within);
    }
    EXPECT_NEAR(sum, 360 * 260 - 240 * 140, 1e-3); // 30 mm to either side of the edge
    const Plate* top = findPlate(h.plates, "top");
    EXPECT_EQ(top->contacts.size(), 4U);
    double behind = 0;
    for (const Contact& c : top->contacts)
        for (const Ring& ring : c.rings) behind += signedArea(ring);
    EXPECT_NEAR(behind, 360 * 260 - 300 * 200, 1e-3);
}

TEST(Lids, ARoundLapIsOneRing) {
    ResolvedOpening o = cutIn("top", circleRing(100));
    o.circle = 200;
    const Hatch h = hatch(o, lidOf(2, 50));
    const Plate* ring = named(h.lids, "top/exit lap");
    ASSERT_TRUE(ring);
    ASSERT_EQ(ring->holes.size(), 1U);
    EXPECT_NEAR(faceArea(*ring, false), std::numbers::pi * (125 * 125 - 75 * 75), 60);
    EXPECT_TRUE(checkClosed(ring->solid));
}

TEST(Lids, TheLapStopsAtNeighbours) {
    // 20 mm from the side: the strip of 60 would run into the plate there
    const Hatch h = hatch(cutIn("top", roundedRing(300, 200, 0), {0, 180}), lidOf(2, 60));
    for (const Plate& strip : h.lids.plates)
        for (const Plate& plate : h.plates.plates)
            for (const ConvexSolid& a : strip.cells)
                for (const ConvexSolid& b : plate.cells) {
                    const Nearest n = nearest(a, b);
                    EXPECT_LT(n.meets ? n.depth : 0, 1e-6) << strip.name << " in " << plate.name;
                }
}

TEST(Lids, WhatCannotBeMadeIsTold) {
    EXPECT_TRUE(
        told(hatch(cutIn("top", roundedRing(100, 30, 0)), lidOf(16, 0)).lids.findings, "lid-vanishes"));
    EXPECT_TRUE(told(hatch(cutIn("top", roundedRing(300, 200, 0), {0, 250}), lidOf(2, 0)).lids.findings,
                     "lid-over-edge"));
    EXPECT_TRUE(told(hatch(cutIn("top", roundedRing(300, 200, 0)), lidOf(8, 0)).lids.findings, "finger-gap"));
    EXPECT_FALSE(
        told(hatch(cutIn("top", roundedRing(300, 200, 0)), lidOf(4, 0)).lids.findings, "finger-gap"));
    OpeningUse slit;
    slit.opening = "exit";
    slit.least = 8;
    EXPECT_TRUE(told(hatch(cutIn("top", roundedRing(300, 8, 0)), slit).lids.findings, "finger-gap"));
    OpeningUse exit = lidOf(2, 0);
    exit.purpose = "exit";
    EXPECT_TRUE(told(hatch(cutIn("top", roundedRing(500, 400, 0)), exit).lids.findings, "lid-from-inside"));
}

TEST(Lids, RandomOpeningsKeepTheirGap) {
    Random random(seedFor("lids", 11));
    for (int round = 0; round < 60 / slowdown; ++round) {
        const int corners = pick(random, 3, 7);
        Ring ring;
        for (int i = 0; i < corners; ++i) {
            const double a = 2 * std::numbers::pi * (i + uniform(random, 0, 0.5)) / corners;
            ring.emplace_back(uniform(random, 80, 160) * std::cos(a), uniform(random, 80, 160) * std::sin(a));
        }
        if (!isSimple(ring) || signedArea(ring) < 5000) continue;
        const double gap = uniform(random, 1, 4);
        const Hatch h = hatch(cutIn("top", ring), lidOf(gap, 40));
        const Plate* lid = named(h.lids, "top/exit lid");
        ASSERT_TRUE(lid) << "round " << round;
        EXPECT_TRUE(checkClosed(lid->solid));
        double cells = 0;
        for (const ConvexSolid& c : lid->cells) cells += volume(convexHull3(c.points));
        EXPECT_NEAR(cells, lid->volume, 1e-3);
        double near = 1e9;
        for (const ConvexSolid& a : lid->cells)
            for (const ConvexSolid& b : findPlate(h.plates, "top")->cells)
                near = std::min(near, nearest(a, b).distance);
        EXPECT_NEAR(near, gap, 1e-4) << "round " << round;
        const Ring hole = reversed(findPlate(h.plates, "top")->holes.at(0).outer);
        EXPECT_LT(faceArea(*lid, false), signedArea(hole));
    }
}

TEST(Lids, InsetRefusesWhatIsUsedUp) {
    const Ring box{{0, 0}, {100, 0}, {100, 40}, {0, 40}};
    ASSERT_TRUE(insetBySide(box, {5, 10, 5, 10}));
    EXPECT_NEAR(signedArea(*insetBySide(box, {5, 10, 5, 10})), 80 * 30, 1e-9);
    EXPECT_FALSE(insetBySide(box, {21, 0, 21, 0}));
    EXPECT_FALSE(insetBySide(box, {1, 1, 1}));
}

TEST(Margins, PublishedRules) {
    // common practice: 3 diameters in plywood, 40 mm in foam; wide holes keep 40 mm
    Sheet ply, foam;
    ply.kind = "plywood";
    foam.kind = "foam";
    EXPECT_DOUBLE_EQ(leastWeb(&ply, 12, 8), 24);
    EXPECT_DOUBLE_EQ(leastWeb(&ply, 12, 300), 40);
    EXPECT_DOUBLE_EQ(leastWeb(&foam, 25, 8), 40);
    EXPECT_DOUBLE_EQ(leastWeb(&foam, 50, 8), 50);
    EXPECT_DOUBLE_EQ(leastWeb(&ply, 3, 2), 10);
    EXPECT_NEAR(leastWidth({{0, 0}, {30, 40}, {-10, 70}, {-40, 30}}), 50, 1e-9);
    EXPECT_NEAR(leastWidth(circleRing(60)), 120, 0.1);
}

TEST(Margins, LeastWidthIsTheLeastOfAllDirections) {
    auto random = seeded(61);
    for (int round = 0; round < 300; ++round) {
        Ring points;
        const int count = 3 + below(random, 40);
        for (int i = 0; i < count; ++i)
            points.emplace_back(uniform(random, -100, 100), uniform(random, -9, 9));
        double least = std::numeric_limits<double>::infinity(); // a side of the hull lies along one of them
        const Ring hull = convexHull(points);
        for (std::size_t i = 0; i < hull.size(); ++i) {
            const Vec2 along = (hull[(i + 1) % hull.size()] - hull[i]).normalized();
            double low = 1e300, high = -1e300;
            for (const Vec2& p : points) {
                low = std::min(low, cross2(along, p));
                high = std::max(high, cross2(along, p));
            }
            least = std::min(least, high - low);
        }
        EXPECT_NEAR(leastWidth(points), least, 1e-9) << "round " << round;
    }
}

TEST(Margins, ToTheEdgeOfEitherFaceAndToEachOther) {
    const Body body = crate();
    PlateRules rules = evenRules(body, 12);
    ResolvedOpening a = cutIn("top", roundedRing(100, 100, 0), {0, 215}), b = a;
    rules.openings = {a};
    const StockSet ply = plyStock(rules.faces[0].stock), foam = plyStock(rules.faces[0].stock, "foam");
    EXPECT_TRUE(told(marginFindings(buildPlates(body, rules), ply, {}, {}), "opening-near-edge")); // 35 mm
    rules.openings[0].at = {0, 190};
    EXPECT_FALSE(told(marginFindings(buildPlates(body, rules), ply, {}, {}), "opening-near-edge"));
    rules.openings[0].outline = circleRing(4);
    rules.openings[0].at = {0, 255};
    EXPECT_FALSE(told(marginFindings(buildPlates(body, rules), ply, {}, {}), "opening-near-edge"));
    EXPECT_TRUE(told(marginFindings(buildPlates(body, rules), foam, {}, {}), "opening-near-edge"));
    b.name = "hatch";
    b.at = {130, 0};
    a.at = {0, 0};
    rules.openings = {a, b};
    const auto found = marginFindings(buildPlates(body, rules), ply, {}, {});
    EXPECT_TRUE(told(found, "openings-near")); // 30 mm
    rules.openings[1].at = {141, 0};
    EXPECT_FALSE(told(marginFindings(buildPlates(body, rules), ply, {}, {}), "openings-near"));
}

TEST(Openings, TheJointThatTheyTakeIsTold) {
    const Body body = crate();
    PlateRules rules = evenRules(body, 12);
    ResolvedOpening o;
    o.name = "tunnel";
    o.origin = {500, 0, 400};
    o.direction = {0, 1, 0};
    o.outline = roundedRing(200, 100, 0);
    rules.openings = {o};
    const PlateSet set = buildPlates(body, rules);
    int count = 0;
    for (const Finding& f : set.findings) {
        if (f.code != "opening-cuts-joint") continue;
        ++count;
        EXPECT_NE(f.message.find("200"), std::string::npos) << f.message;
    }
    EXPECT_EQ(count, 2); // top with port, top with starboard
    rules.openings[0].origin = {500, 0, 200};
    EXPECT_FALSE(told(buildPlates(body, rules).findings, "opening-cuts-joint"));
}
