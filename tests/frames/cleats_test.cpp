// Cleats: lengths and sections by closed forms, their room by OpenCASCADE.
#include "core/frames/cleats.h"
#include "core/geometry/convex_hull.h"
#include "core/geometry/occt.h"
#include "tests/body/make.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double degree = std::numbers::pi / 180;

PlateSet shellOf(const Body& body, double thickness) {
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i)
        rules.faces.push_back({"ply", thickness, static_cast<int>(i)});
    rules.freePlates.resize(body.plates.size());
    return buildPlates(body, rules);
}

CleatChoice ruleOf(const std::string& name, bool block = false) {
    CleatChoice c;
    c.name = name;
    c.block = block;
    return c;
}

double shared(const Polyhedron& a, const Polyhedron& b) {
    const auto v = occt::commonVolume(a, b);
    EXPECT_TRUE(v) << (v ? "" : v.error().message);
    return v ? *v : 1e9;
}

double overlapOf(const CleatPiece& piece, const PlateSet& set) {
    const Polyhedron stick = convexHull3(piece.shape.points);
    const Box3 box = bounds(stick);
    double sum = 0;
    for (const Plate& p : set.plates) {
        const Box3 other = bounds(p.solid);
        if ((box.min.array() < other.max.array()).all() && (other.min.array() < box.max.array()).all())
            sum += shared(stick, p.solid);
    }
    return sum;
}

} // namespace

// Square corner: the bar as it is. Area of a bar of w x d in a corner of 60°, one face planed off:
// w d - d² cot 60° / 2 (elementary geometry).
TEST(Cleats, sectionsFitTheirCorner) {
    const auto square = cleatSection(20, 30, 90 * degree);
    ASSERT_TRUE(square);
    EXPECT_EQ(square->planed, 0);
    EXPECT_DOUBLE_EQ(signedArea(square->outline), 600);
    EXPECT_DOUBLE_EQ(square->onB, 30);
    const auto sharp = cleatSection(20, 20, 60 * degree);
    ASSERT_TRUE(sharp);
    EXPECT_EQ(sharp->planed, 1);
    EXPECT_NEAR(signedArea(sharp->outline), 400 - 200 / std::tan(60 * degree), 1e-9);
    EXPECT_NEAR(sharp->onB, 20 / std::sin(60 * degree), 1e-9);
    const auto flat = cleatSection(20, 20, 150 * degree);
    ASSERT_TRUE(flat);
    EXPECT_EQ(flat->planed, 2);
    EXPECT_NEAR(flat->onA, 10 / std::sin(75 * degree), 1e-9);
    EXPECT_NEAR(flat->onB, flat->onA, 1e-9);
    // A gable roof of height 10 cot 75° is planed off: half base times height.
    EXPECT_NEAR(signedArea(flat->outline), 400 - 100 / std::tan(75 * degree), 1e-9);
}

TEST(Cleats, anySectionLiesOnBothPlates) {
    auto random = seeded(5);
    for (int round = 0; round < 500; ++round) {
        const double angle = uniform(random, 12, 175) * degree, w = uniform(random, 5, 60),
                     d = uniform(random, 5, 60);
        const auto s = cleatSection(w, d, angle);
        ASSERT_TRUE(s);
        const Vec2 b(std::cos(angle), std::sin(angle));
        for (const Vec2& p : s->outline) {
            ASSERT_GE(p.y(), -1e-9);
            ASSERT_GE(-cross2(b, p), -1e-9);
        }
        ASSERT_GT(s->onA, 0.2 * std::min(w, d));
        ASSERT_GT(s->onB, 0.2 * std::min(w, d));
        ASSERT_LE(signedArea(s->outline), w * d + 1e-9); // planed out of the bar, never more than it
        ASSERT_NEAR(signedArea(convexHull(s->outline)), signedArea(s->outline), 1e-9);
    }
}

TEST(Cleats, refuseWhatIsNoCorner) {
    EXPECT_EQ(cleatSection(20, 20, std::numbers::pi).error().code, "cleat-corner");
    EXPECT_EQ(cleatSection(20, 20, 4).error().code, "cleat-corner");
    EXPECT_EQ(cleatSection(0, 20, 1).error().code, "cleat-corner");
}

// A box of 1000 x 600 x 500 with plates of 10 has inside edges of 980, 580 and 480; four each. Sticks of 20:
// at each corner one runs through and two butt, so the lengths sum to 4 (980 + 580 + 480) less 8 corners
// times two butting ends times 20.
TEST(Cleats, boxEdgesShareTheirCorners) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = shellOf(body, 10);
    const CleatSet cleats = makeCleats({ruleOf("edges")}, set, {});
    EXPECT_EQ(cleats.pieces.size(), 12U);
    ASSERT_EQ(cleats.sticks.size(), 1U);
    EXPECT_EQ(cleats.sticks[0].pieces, 12);
    EXPECT_NEAR(cleats.sticks[0].length, 4 * (980 + 580 + 480) - 8 * 2 * 20, 0.01);
    EXPECT_NEAR(cleats.sticks[0].longest, 980, 0.01);
    for (const CleatLine& line : cleats.lines) {
        EXPECT_NEAR(line.angle, 90 * degree, 1e-12);
        EXPECT_EQ(line.planed, 0);
    }
    double volumes = 0;
    for (std::size_t i = 0; i < cleats.pieces.size(); ++i) {
        EXPECT_LT(overlapOf(cleats.pieces[i], set), 1e-2);
        const Polyhedron stick = convexHull3(cleats.pieces[i].shape.points);
        volumes += volume(stick);
        for (std::size_t k = 0; k < i; ++k)
            EXPECT_LT(shared(stick, convexHull3(cleats.pieces[k].shape.points)), 1e-2);
    }
    EXPECT_NEAR(volumes, cleats.sticks[0].length * 400, 1);
    CleatChoice gapped = ruleOf("edges");
    gapped.endGap = 5;
    const CleatSet shorter = makeCleats({gapped}, set, {});
    // Each end gives up 5; a butting end also gives up 20 unless the gap of the other already freed it.
    EXPECT_LT(shorter.sticks[0].length, cleats.sticks[0].length - 8 * 5);
    EXPECT_NEAR(shorter.sticks[0].longest, 970, 0.01);
}

TEST(Cleats, blocksStandNoFurtherApartThanWanted) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = shellOf(body, 10);
    const CleatSet cleats = makeCleats({ruleOf("blocks", true)}, set, {});
    const auto longest = std::max_element(cleats.lines.begin(), cleats.lines.end(),
                                          [](const auto& l, const auto& r) { return l.count < r.count; });
    ASSERT_NE(longest, cleats.lines.end());
    EXPECT_EQ(longest->count, 5); // (980 - 40) / 250 = 3.76: four spaces
    EXPECT_NEAR(longest->pitch, 940 / 4.0, 0.01);
    for (const CleatLine& line : cleats.lines) {
        EXPECT_NEAR(line.length, 40, 1e-9);
        EXPECT_LE(line.pitch, 250);
    }
}

TEST(Cleats, stopAtOpeningsAndFrames) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i) rules.faces.push_back({"ply", 10, 0});
    ResolvedOpening door; // from x = 400 to 600 and from z = 0 up, through port
    door.name = "door";
    door.origin = {500, 0, 100};
    door.direction = Vec3::UnitY();
    door.outline = {{-100, -150}, {100, -150}, {100, 150}, {-100, 150}};
    door.plates = {"box/port"};
    rules.openings.push_back(door);
    const PlateSet set = buildPlates(body, rules);
    CleatChoice rule = ruleOf("sill");
    rule.a = "box/port";
    rule.b = "box/bottom";
    const CleatSet cleats = makeCleats({rule}, set, {});
    ASSERT_EQ(cleats.pieces.size(), 2U) << report(cleats.findings);
    EXPECT_NEAR(cleats.sticks[0].length, 980 - 200, 0.01);
    for (const CleatPiece& piece : cleats.pieces) EXPECT_LT(overlapOf(piece, set), 1e-2);
}

TEST(Cleats, tellWhatIsInTheWay) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = shellOf(body, 10);
    const std::vector<FitSolid> solids{
        {"donor/wheel", "donor", makeBoxSolid({300, 200, 15}, {400, 285, 120}), 5, false, {}},
        {"rider/foot", "rider", makeBoxSolid({300, 200, 45}, {400, 260, 120}), 30, false, {}}};
    CleatChoice rule = ruleOf("sill");
    rule.a = "box/port";
    rule.b = "box/bottom";
    const CleatSet cleats = makeCleats({rule}, set, solids);
    ASSERT_EQ(cleats.findings.size(), 2U) << report(cleats.findings);
    EXPECT_EQ(cleats.findings[0].code, "cleat-in-the-way");
    EXPECT_EQ(cleats.findings[0].severity, Severity::stop);
    EXPECT_EQ(cleats.findings[1].severity, Severity::look);
    CleatChoice wrong = ruleOf("wrong");
    wrong.a = "tower/*";
    EXPECT_NE(find(makeCleats({wrong}, set, {}).findings, "cleat-misses"), nullptr);
    CleatChoice thick = ruleOf("thick");
    thick.endGap = 600;
    EXPECT_NE(find(makeCleats({thick}, set, {}).findings, "cleat-no-room"), nullptr);
}

TEST(Cleats, refuseRulesThatCannotBeRead) {
    Project project;
    project.cleats.resize(3);
    project.cleats[0].width = "0 mm";
    project.cleats[1].spacing = "3 + m";
    project.cleats[2].width = "15 mm";
    std::vector<Finding> findings;
    const auto read = resolveCleats(project, Scope{}, findings);
    ASSERT_EQ(read.size(), 1U);
    EXPECT_DOUBLE_EQ(read[0].depth, 15);
    EXPECT_NE(find(findings, "cleat-size"), nullptr);
    EXPECT_EQ(findings.size(), 2U);
}

TEST(Cleats, neverMeetPlatesOrEachOther) {
    auto random = seeded(11);
    std::size_t made = 0;
    for (int run = 0; run < 16 / slowdown + 2; ++run) {
        ProfileShape hull;
        hull.outline = {sidePoint("keel", 0, 0, uniform(random, 200, 400)),
                        sidePoint("fore", uniform(random, 700, 900), 0, uniform(random, 200, 400)),
                        sidePoint("stem", uniform(random, 950, 1200), uniform(random, 350, 450),
                                  uniform(random, 50, 300)),
                        sidePoint("aft", uniform(random, -150, 100), uniform(random, 350, 500),
                                  uniform(random, 200, 400))};
        const Body body =
            bodyOf(projectOf({named("hull", hull),
                              boxForm("house", {200, -150, 300}, {500, 150, uniform(random, 600, 900)})}));
        if (body.skin.faces.empty()) continue;
        const PlateSet set = shellOf(body, uniform(random, 4, 14));
        CleatChoice rule = ruleOf("all", below(random, 2) == 1);
        rule.width = uniform(random, 10, 30);
        rule.depth = uniform(random, 10, 30);
        const CleatSet cleats = makeCleats({rule}, set, {});
        for (std::size_t i = 0; i < cleats.pieces.size(); ++i) {
            ++made;
            EXPECT_LT(overlapOf(cleats.pieces[i], set), 0.1) << run;
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_LT(commonPart(convexHull3(cleats.pieces[i].shape.points),
                                     convexHull3(cleats.pieces[k].shape.points))
                              .volume,
                          0.1)
                    << run;
        }
    }
    std::printf("%zu pieces\n", made);
    EXPECT_GT(made, 100U / slowdown);
}

} // namespace slab
