// Choices that cannot be built as asked, left-out plates, circles of covers, and the document's rules.
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

Body box() {
    return bodyOf(makeBox({0, 0, 0}, {400, 300, 200}));
}

const Finding* finding(const std::vector<Finding>& list, const std::string& code) {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const Finding& f) { return f.code == code; });
    return found == list.end() ? nullptr : &*found;
}

std::size_t faceNamed(const Body& body, const std::string& name) {
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i)
        if (body.skin.faces[i].name == name) return i;
    return 0;
}

} // namespace

// Covers in a circle at a corner leave a cube of t³ (design §6).
TEST(Circles, OfCoversLeaveACubeAndSayWhichToDrop) {
    const Body body = box();
    PlateRules rules = rulesFor(body, {12}, {9});
    rules.faces[faceNamed(body, "port")].rank = 0;
    rules.faces[faceNamed(body, "top")].rank = 1;
    rules.faces[faceNamed(body, "front")].rank = 2;
    rules.edges = {{"front", "port", JointKind::cover, {}}};
    const PlateSet set = buildPlates(body, rules);
    ASSERT_EQ(set.gaps.size(), 1U);
    EXPECT_NEAR(set.gaps[0].volume, 12 * 12 * 12, 1e-6);
    EXPECT_LT((set.gaps[0].at - Vec3(394, 294, 194)).norm(), 1e-6);
    const double shell = 400.0 * 300 * 200 - 376.0 * 276 * 176;
    EXPECT_NEAR((sumOfVolumes(set) + sumOfGaps(set)) / shell, 1, 1e-9);
    const Finding* cycle = finding(set.findings, "joint-cycle");
    ASSERT_TRUE(cycle);
    EXPECT_TRUE(cycle->at);
    EXPECT_NE(cycle->remedy.find("Drop the joint"), std::string::npos);
    rules.edges.pop_back();
    const PlateSet mended = buildPlates(body, rules);
    EXPECT_FALSE(finding(mended.findings, "joint-cycle"));
    EXPECT_NEAR((sumOfVolumes(mended) + sumOfGaps(mended)) / shell, 1, 1e-9);
}

TEST(LeftOut, NeighboursRunToTheSkin) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.faces[faceNamed(body, "bottom")] = {};
    const PlateSet set = buildPlates(body, rules);
    EXPECT_EQ(set.plates.size(), 5U);
    EXPECT_FALSE(findPlate(set, "bottom"));
    const PanelEdge* e = findEdge(*findPlate(set, "port"), "bottom");
    ASSERT_TRUE(e);
    EXPECT_EQ(e->role, EdgeRole::open);
    EXPECT_EQ(e->mark, 0);
    EXPECT_NEAR(e->offsetOuter, 0, 1e-9);
    EXPECT_NEAR(e->offsetInner, 0, 1e-9);
    EXPECT_NEAR(sumOfVolumes(set) / (400.0 * 300 * 200 - 376.0 * 276 * 188), 1, 1e-9);
}

TEST(Folds, NeedOneStockAndNoRing) {
    const Body body = box();
    PlateRules rules = evenRules(body, 6);
    rules.edges = {{"port", "top", JointKind::fold, {}}, {"top", "starboard", JointKind::fold, {}}};
    const PlateSet good = buildPlates(body, rules);
    EXPECT_FALSE(finding(good.findings, "fold-loop"));
    EXPECT_FALSE(finding(good.findings, "fold-stock"));
    EXPECT_EQ(findEdge(*findPlate(good, "top"), "port")->role, EdgeRole::fold);
    rules.edges.push_back({"starboard", "bottom", JointKind::fold, {}});
    rules.edges.push_back({"bottom", "port", JointKind::fold, {}});
    EXPECT_TRUE(finding(buildPlates(body, rules).findings, "fold-loop"));
    rules.faces[faceNamed(body, "top")].stock = "other";
    EXPECT_TRUE(finding(buildPlates(body, rules).findings, "fold-stock"));
}

TEST(Refusals, RulesOfAnotherBody) {
    const Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.faces.pop_back();
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(finding(set.findings, "rules-mismatch"));
    EXPECT_TRUE(set.plates.empty());
}

TEST(Refusals, ThicknessMustBeThere) {
    const Body body = box();
    for (const double t : {0.0, -3.0, std::numeric_limits<double>::quiet_NaN()}) {
        PlateRules rules = evenRules(body, 12);
        rules.faces[faceNamed(body, "top")].thickness = t;
        const PlateSet set = buildPlates(body, rules);
        EXPECT_TRUE(finding(set.findings, "plate-thickness")) << t;
        EXPECT_EQ(set.plates.size(), 5U);
    }
}

TEST(Refusals, PlatesThickerThanTheBody) {
    const Body body = bodyOf(makeBox({0, 0, 0}, {400, 300, 20}));
    PlateRules rules = evenRules(body, 12);
    for (const char* name : {"top", "bottom"}) rules.faces[faceNamed(body, name)].rank = 0;
    for (const char* name : {"port", "starboard", "front", "back"})
        rules.faces[faceNamed(body, name)].rank = 1;
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(finding(set.findings, "plate-vanishes")) << "the sides have no room between top and bottom";
    EXPECT_NEAR(sumOfVolumes(set) / body.volume, 1, 1e-9);
    EXPECT_FALSE(finding(buildPlates(body, evenRules(body, 3)).findings, "plate-vanishes"));
}

TEST(Refusals, BevelsPastTheBlade) {
    const Body sharp = bodyOf(regularSolid(4)); // 54.7° from square
    EXPECT_TRUE(finding(buildPlates(sharp, evenRules(sharp, 5)).findings, "bevel-past-45"));
    // A box whose front and back lean by so much: what butts there is cut by it.
    for (const double past : {0.0, 0.04, 0.06}) {
        const double lean = (45 + past) * std::numbers::pi / 180;
        Polyhedron solid = makeBox({0, 0, 0}, {400, 300, 200});
        for (Vec3& v : solid.vertices) v.x() += v.z() * std::tan(lean);
        for (PolyFace& face : solid.faces) {
            const auto& loop = face.loops.front();
            const auto at = [&](std::size_t k) { return solid.vertices[static_cast<std::size_t>(loop[k])]; };
            face.plane.normal = (at(1) - at(0)).cross(at(2) - at(1)).normalized();
            face.plane.offset = face.plane.normal.dot(at(0));
        }
        const Body leaning = bodyOf(solid);
        PlateRules rules = evenRules(leaning, 5);
        // By choice: left alone, so sharp a corner is mitred.
        for (const char* leans : {"front", "back"})
            for (const char* level : {"top", "base", "bottom"})
                rules.edges.push_back({level, leans, JointKind::cover, {}});
        const PlateSet set = buildPlates(leaning, rules);
        const Finding* told = finding(set.findings, "bevel-past-45");
        EXPECT_EQ(told != nullptr, past > 0.05) << past << (told ? ": " + told->message : "");
    }
    const Body square = box();
    EXPECT_FALSE(finding(buildPlates(square, evenRules(square, 5)).findings, "bevel-past-45"));
}

TEST(Refusals, StoppedJobsComeBackEarly) {
    const Body body = box();
    std::stop_source source;
    source.request_stop();
    const PlateSet set = buildPlates(body, evenRules(body, 12), Job{source.get_token(), {}});
    EXPECT_TRUE(set.plates.empty());
}

TEST(Panels, AlikeAndHandedOnes) {
    // a wedge-shaped body: port and starboard are each other's mirror image, no two others are alike
    const Body body = bodyOf(hullOf({{0, 0, 0},
                                     {500, 0, 0},
                                     {0, 300, 0},
                                     {500, 300, 0},
                                     {0, 0, 250},
                                     {0, 300, 250},
                                     {150, 0, 320},
                                     {150, 300, 320}}));
    const PlateSet set = buildPlates(body, evenRules(body, 9));
    const auto panels = makePanels(set);
    int handed = 0;
    for (const Panel& p : panels) {
        handed += !p.mirrorOf.empty();
        EXPECT_EQ(p.plates.size(), 1U) << p.name;
        EXPECT_GT(signedArea(p.boundary.outer), 0);
        EXPECT_GE(bounds(p.boundary.outer).min.minCoeff(), -1e-9);
    }
    EXPECT_EQ(handed, 1);
    const Body cube = bodyOf(makeBox({0, 0, 0}, {300, 300, 300}));
    EXPECT_EQ(makePanels(buildPlates(cube, evenRules(cube, 9))).size(), 1U);
}

TEST(Panels, FingerprintFollowsTheCutAndNothingElse) {
    const auto print = [](double length, double thickness, const Vec3& move) {
        const Body body = bodyOf(makeBox(move, move + Vec3(length, 300, 200)));
        for (const Panel& p : makePanels(buildPlates(body, evenRules(body, thickness))))
            if (p.name == "top") return p.fingerprint;
        return std::string();
    };
    const std::string first = print(400, 12, Vec3::Zero());
    EXPECT_EQ(first, print(400, 12, Vec3::Zero()));
    EXPECT_EQ(first, print(400, 12, Vec3(10, 20, 30)));
    EXPECT_NE(first, print(400.1, 12, Vec3::Zero()));
    EXPECT_NE(first, print(400, 12.2, Vec3::Zero()));
}

TEST(Panels, FootprintHoldsBothFaces) {
    const Body body = bodyOf(frustum(5, 300, 150, 100)); // leaning sides: covering plates are larger inside
    PlateRules rules = rulesFor(body, {15}, {0, 1, 2, 3, 4, 5, 6});
    for (const Panel& p : makePanels(buildPlates(body, rules))) {
        for (const Vec2& v : p.boundary.outer) EXPECT_TRUE(contains(p.footprint, v, 1e-4)) << p.name;
        for (const Vec2& v : p.boundary.inner) EXPECT_TRUE(contains(p.footprint, v, 1e-4)) << p.name;
    }
}

TEST(Repeat, SameInputSameResult) {
    const Body body = bodyOf(frustum(7, 300, 150, 200));
    const PlateRules rules = rulesFor(body, {3, 9, 12.7}, {0, 1, 2, 0});
    EXPECT_TRUE(buildPlates(body, rules) == buildPlates(body, rules));
}

// Two forms with flush tops: one plate, and either name is obeyed.
TEST(Rules, NamesOfMergedSidesAreObeyed) {
    Body body = box();
    body.skin.faces[faceNamed(body, "top")].aliases = {"hood/top"};
    Project project;
    project.stock.sheets.resize(2);
    for (std::size_t i = 0; i < 2; ++i) {
        project.stock.sheets[i].name = i == 0 ? "foam" : "board";
        project.stock.sheets[i].width = "1220 mm";
        project.stock.sheets[i].length = "2440 mm";
        project.stock.sheets[i].thickness = i == 0 ? "12 mm" : "3 mm";
    }
    project.materials.fallback = "foam";
    project.materials.plates = {{"hood/*", "board"}};
    project.joints.order = {"port", "hood/top"};
    project.joints.edges = {{"front", "hood/top", JointKind::cover, {}}};
    project.openings.resize(2);
    for (Opening& o : project.openings) {
        o.name = "hatch";
        o.shape = OpeningShape::circle;
        o.diameter = "20 mm";
    }
    project.openings[0].plate = "hood/top";
    project.openings[1].name = "pipe";
    project.openings[1].direction = "z";
    project.openings[1].plates = {"hood/top"};
    project.openings[1].x = project.openings[1].y = "40 mm";
    Scope scope;
    std::vector<Finding> findings;
    const PlateRules rules = resolveRules(project, scope, body, findings);
    EXPECT_TRUE(findings.empty()) << findings.front().message;
    const auto& top = rules.faces[faceNamed(body, "top")];
    EXPECT_EQ(top.stock, "board");
    EXPECT_EQ(top.rank, 1);
    const PlateSet set = buildPlates(body, rules);
    const auto joint = std::find_if(set.joints.begin(), set.joints.end(), [](const JointInfo& j) {
        return (j.a == "front" && j.b == "top") || (j.a == "top" && j.b == "front");
    });
    ASSERT_NE(joint, set.joints.end());
    EXPECT_TRUE(joint->forced);
    EXPECT_EQ(joint->a, "front") << "covers, as chosen";
    const auto plate =
        std::find_if(set.plates.begin(), set.plates.end(), [](const Plate& p) { return p.name == "top"; });
    ASSERT_NE(plate, set.plates.end());
    EXPECT_EQ(plate->holes.size(), 2U);
}

TEST(Rules, ConflictingChoicesForMergedSidesAreToldOnce) {
    Body body = box();
    body.skin.faces[faceNamed(body, "top")].aliases = {"hood/top"};
    Project project;
    const auto told = [&](const char* code) {
        std::vector<Finding> findings;
        (void)resolveRules(project, Scope{}, body, findings);
        return std::count_if(findings.begin(), findings.end(),
                             [&](const Finding& f) { return f.code == code; });
    };
    project.joints.order = {"top", "port", "hood/top"};
    EXPECT_EQ(told("merged-order"), 1);
    project.joints.order = {"hood/top", "port", "top"};
    EXPECT_EQ(told("merged-order"), 1);
    project.joints.order = {"top", "port", "hood/*"};
    EXPECT_EQ(told("merged-order"), 0) << "a pattern does not mean this very side";
    project.joints.edges = {{"hood/top", "port", JointKind::mitre, {}}, {"top", "port", JointKind::open, {}}};
    EXPECT_EQ(told("merged-joint"), 1);
    project.joints.edges[1].joint = JointKind::mitre;
    EXPECT_EQ(told("merged-joint"), 0);
    project.joints.edges = {{"hood/top", "port", JointKind::cover, {}},
                            {"port", "top", JointKind::cover, {}}};
    EXPECT_EQ(told("merged-joint"), 1) << "each covers the other";
    project.joints.edges = {{"top", "port", JointKind::mitre, {}}, {"top", "port", JointKind::open, {}}};
    EXPECT_EQ(told("merged-joint"), 0) << "by one name: the first match wins";
}

TEST(Rules, FromTheDocument) {
    const Body body = box();
    Project project;
    project.stock.sheets.resize(2);
    const auto sheet = [&](std::size_t i, const char* name, const char* thickness) {
        project.stock.sheets[i].name = name;
        project.stock.sheets[i].width = "1220 mm";
        project.stock.sheets[i].length = "2440 mm";
        project.stock.sheets[i].thickness = thickness;
    };
    sheet(0, "foam", "12.7 mm");
    sheet(1, "board", "3 mm");
    project.materials.fallback = "foam";
    project.materials.plates = {{"to*", "board"}, {"top", "foam"}, {"bottom", ""}, {"hatch", "foam"}};
    project.joints.order = {"port", "*o*"};
    project.openings.resize(2);
    project.openings[0].name = "sight";
    project.openings[0].plate = "front";
    project.openings[0].u = "10 mm";
    project.openings[0].width = "200 mm";
    project.openings[0].height = "50 mm";
    project.openings[1].name = "nothing";
    project.openings[1].plate = "front";
    Scope scope;
    scope.scale = 0.5;
    std::vector<Finding> findings;
    const PlateRules rules = resolveRules(project, scope, body, findings);
    const auto& top = rules.faces[faceNamed(body, "top")];
    EXPECT_EQ(top.stock, "board") << "first match wins";
    EXPECT_NEAR(top.thickness, 3, 1e-12) << "stock does not shrink";
    EXPECT_EQ(rules.faces[faceNamed(body, "port")].rank, 0);
    EXPECT_EQ(top.rank, 1);
    EXPECT_EQ(rules.faces[faceNamed(body, "back")].rank, 2) << "unlisted comes last";
    EXPECT_TRUE(rules.faces[faceNamed(body, "bottom")].stock.empty());
    ASSERT_EQ(rules.openings.size(), 1U);
    EXPECT_NEAR(rules.openings[0].at.x(), 5, 1e-12) << "places shrink with the scale";
    EXPECT_NEAR(signedArea(rules.openings[0].outline), 200 * 50, 1e-9) << "sizes do not";
    EXPECT_TRUE(finding(findings, "opening-no-size"));
    EXPECT_TRUE(finding(findings, "matches-no-plate"));
    project.materials.plates.pop_back();
    project.joints.order.push_back("mast/top");
    project.joints.edges = {{"mast/top", "port", JointKind::mitre, {}}};
    const auto wrongNames = [&] {
        findings.clear();
        static_cast<void>(resolveRules(project, scope, body, findings));
        return finding(findings, "matches-no-plate") || finding(findings, "joint-matches-no-edge");
    };
    EXPECT_TRUE(wrongNames());
    project.forms.resize(1); // which could not be made: the names are right
    project.forms[0].name = "mast";
    EXPECT_FALSE(wrongNames());
    project.joints.edges.clear();
    project.materials.fallback = "gone";
    findings.clear();
    const PlateRules lost = resolveRules(project, scope, body, findings);
    const auto missing = std::find_if(findings.begin(), findings.end(),
                                      [](const Finding& f) { return f.code == "unknown-stock"; });
    ASSERT_NE(missing, findings.end());
    EXPECT_EQ(std::count_if(findings.begin(), findings.end(),
                            [](const Finding& f) { return f.code == "unknown-stock"; }),
              1)
        << "one for all plates";
    EXPECT_EQ(missing->about.front(), "document:/materials/default");
    const auto& back = lost.faces[faceNamed(body, "back")];
    EXPECT_EQ(back.stock, project.stock.sheets.front().name) << "drawn in the first sheet that can be used";
    EXPECT_GT(back.thickness, 0);
    EXPECT_NE(missing->message.find(back.stock), std::string::npos) << missing->message;
}
