// Plates joined by folds: one blank, its outlines, grooves and findings.
#include "core/geometry/occt.h"
#include "fixtures.h"
#include "folding.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <set>
#include <stdexcept>

using namespace slab;
using namespace slab::test;

namespace {

constexpr double degree = std::numbers::pi / 180;

std::vector<std::string> codes(const PlateSet& set) {
    std::vector<std::string> out;
    for (const Finding& f : set.findings)
        if (f.code.starts_with("fold-")) out.push_back(f.code);
    return out;
}

void expectPoints(const Ring& ring, const std::vector<Vec2>& wanted) {
    ASSERT_EQ(ring.size(), wanted.size());
    for (std::size_t i = 0; i < ring.size(); ++i)
        EXPECT_LT((ring[i] - wanted[i]).norm(), 1e-9) << i << ": " << ring[i].transpose();
}

std::set<EdgeRole> rolesOf(const PlateSet& set) {
    std::set<EdgeRole> roles;
    for (const Plate& p : set.plates)
        for (const PanelEdge& e : p.boundary.edges) roles.insert(e.role);
    return roles;
}

} // namespace

// Port, 400 × 200, under the top, 400 × 300: side by side at the edge that they share, with the groove's
// mouth, 2 t tan(90°/2), inside.
TEST(Fold, BoxWithOneFoldIsTwoFacesSideBySide) {
    const double t = 12;
    const Body body = bodyOf(makeBox({0, 0, 0}, {400, 300, 200}));
    PlateRules rules = evenRules(body, t);
    rules.edges = {{"port", "top", JointKind::fold, {}}};
    rules.faces[1].rank = 0;
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(codes(set).empty());
    const auto panels = makePanels(set);
    EXPECT_EQ(panels.size(), 5U - 1U) << "bottom, front and back (alike), starboard, and the blank";
    const Panel* blank = panelOf(panels, "top");
    ASSERT_TRUE(blank);
    EXPECT_EQ(blank, panelOf(panels, "port"));
    EXPECT_EQ(blank->name, "port + top");
    EXPECT_EQ(blank->copyCount(), 1U);
    // Port seen from outside: x runs to the left, so the top's 300 mm lie above its 200.
    expectPoints(blank->boundary.outer, {{0, 0}, {400, 0}, {400, 200}, {400, 500}, {0, 500}, {0, 200}});
    const double i = 400 - 2 * t;
    EXPECT_NEAR(area({blank->boundary.outer, {}}), 400.0 * 200 + 400.0 * 300, 1e-9 * 2e5);
    ASSERT_EQ(blank->parts.size(), 2U);
    EXPECT_NEAR(signedArea(blank->parts[0].inner), i * (200 - 2 * t), 1e-6);
    EXPECT_NEAR(signedArea(blank->parts[1].inner), i * (300 - 2 * t), 1e-6);
    EXPECT_NEAR(signedArea(blank->boundary.inner), i * (500 - 2 * t), 1e-6) << "bridged over the groove";
    ASSERT_EQ(blank->folds.size(), 1U);
    const PanelFold& fold = blank->folds.front();
    EXPECT_FALSE(fold.valley);
    EXPECT_NEAR((fold.to - fold.from).norm(), 400, 1e-9);
    EXPECT_NEAR(fold.from.y(), 200, 1e-9);
    EXPECT_NEAR(fold.to.y(), 200, 1e-9);
    EXPECT_NEAR(fold.angle / degree, 90, 1e-9);
    EXPECT_NEAR(fold.width, 2 * t, 1e-9);
    ASSERT_EQ(fold.mouth.size(), 4U);
    EXPECT_NEAR(signedArea(fold.mouth), i * 2 * t, 1e-6);
    const auto gone = [&](const PanelEdge& e) { return e.role == EdgeRole::fold || e.mark == fold.mark; };
    EXPECT_TRUE(std::none_of(blank->boundary.edges.begin(), blank->boundary.edges.end(), gone));
}

// What is left of the plates' edges says what it said before, and its inner edge is the same one.
TEST(Fold, EdgesKeepTheirLabels) {
    const Body body = bodyOf(frustum(5, 300, 220, 260));
    for (const std::vector<int>& ranks : {std::vector<int>{0}, std::vector<int>{0, 1, 2, 3, 4, 5, 6}}) {
        PlateRules rules = rulesFor(body, {9}, ranks);
        const SkinEdge& edge = body.skin.edges.front();
        const std::string a = body.skin.faces[static_cast<std::size_t>(edge.left)].name;
        const std::string b = body.skin.faces[static_cast<std::size_t>(edge.right)].name;
        rules.edges = {{a, b, JointKind::fold, {}}};
        const PlateSet set = buildPlates(body, rules);
        const auto panels = makePanels(set);
        const Panel* blank = panelOf(panels, a);
        ASSERT_TRUE(blank && blank->folds.size() == 1);
        std::size_t labelled = 0;
        for (std::size_t i = 0; i < blank->boundary.edges.size(); ++i) {
            const PanelEdge& e = blank->boundary.edges[i];
            if (e.own < 0 || e.mark == blank->folds.front().mark) continue; // what the fold left over
            ++labelled;
            const Plate* plate = findPlate(set, blank->plateOf(e));
            ASSERT_TRUE(plate);
            const PanelEdge& own = plate->boundary.edges[static_cast<std::size_t>(e.own)];
            EXPECT_EQ(e.neighbour, own.neighbour);
            EXPECT_EQ(e.role, own.role);
            EXPECT_EQ(e.mark, own.mark);
            EXPECT_EQ(e.bevel, own.bevel);
            EXPECT_NEAR(e.length, own.length, 1e-9);
            EXPECT_EQ(e.inner < 0, own.inner < 0);
            if (e.inner < 0) continue;
            const PanelPart& part = blank->parts[static_cast<std::size_t>(e.part)];
            const Vec2& here = blank->boundary.inner[static_cast<std::size_t>(e.inner)];
            const Vec2 there = laid(part, plate->boundary.inner[static_cast<std::size_t>(own.inner)]);
            EXPECT_LT((here - there).norm(), 1e-6) << i;
        }
        EXPECT_GE(labelled, 6U) << "a trapezoid and its neighbour without the fold";
    }
}

// The re-entrant corner of an L: the inside face stays whole, the outside face gets the groove.
TEST(Fold, ValleyLeavesTheInsideFaceWhole) {
    const double t = 10;
    const Body body = bodyOf(prism({{0, 0}, {300, 0}, {300, 100}, {120, 100}, {120, 250}, {0, 250}}, 500));
    PlateRules rules = evenRules(body, t, JointKind::mitre);
    rules.edges = {{"s2", "s3", JointKind::fold, {}}};
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(codes(set).empty());
    const auto panels = makePanels(set);
    const Panel* blank = panelOf(panels, "s2");
    ASSERT_TRUE(blank && blank->folds.size() == 1);
    const PanelFold& fold = blank->folds.front();
    EXPECT_TRUE(fold.valley);
    EXPECT_NEAR(fold.dihedral / degree, 270, 1e-9);
    EXPECT_NEAR(fold.angle / degree, 90, 1e-9);
    EXPECT_NEAR(fold.width, 2 * t, 1e-9);
    // Inside, the faces are longer by t at the valley and shorter by t at the other ends.
    EXPECT_NEAR((fold.to - fold.from).norm(), 500 - 2 * t, 1e-9);
    EXPECT_NEAR(signedArea(blank->boundary.inner), (500 - 2 * t) * (180.0 + 150.0), 1e-6);
    EXPECT_NEAR(signedArea(blank->parts[0].inner) + signedArea(blank->parts[1].inner),
                (500 - 2 * t) * (180.0 + 150.0), 1e-6)
        << "no groove in this face";
    EXPECT_NEAR(signedArea(blank->boundary.outer), 500 * (180.0 + 150.0 + 2 * t), 1e-6) << "before grooving";
    EXPECT_NEAR(signedArea(blank->parts[0].outer) + signedArea(blank->parts[1].outer), 500 * (180.0 + 150.0),
                1e-6);
    EXPECT_NEAR(std::abs(signedArea(fold.mouth)), 500 * 2 * t, 1e-6);
}

TEST(Fold, CubeUnfoldsToItsNet) {
    const double a = 300, t = 6;
    const Body body = bodyOf(makeBox({0, 0, 0}, {a, a, a}));
    PlateRules rules = evenRules(body, t);
    for (const char* side : {"front", "back", "port", "starboard"})
        rules.edges.push_back({"bottom", side, JointKind::fold, {}});
    rules.edges.push_back({"top", "front", JointKind::fold, {}});
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(codes(set).empty());
    const auto panels = makePanels(set);
    ASSERT_EQ(panels.size(), 1U);
    const Panel& net = panels.front();
    EXPECT_EQ(net.parts.size(), 6U);
    EXPECT_EQ(net.folds.size(), 5U);
    EXPECT_EQ(net.copyCount(), 1U);
    EXPECT_EQ(net.name, "back + bottom + 4 more");
    EXPECT_NEAR(signedArea(net.boundary.outer), 6 * a * a, 1e-9 * 6 * a * a);
    const Vec2 size = bounds(net.boundary.outer).size();
    EXPECT_NEAR(std::max(size.x(), size.y()), 4 * a, 1e-9);
    EXPECT_NEAR(std::min(size.x(), size.y()), 3 * a, 1e-9);
    EXPECT_EQ(net.boundary.outer.size(), 14U) << "a cross of four and three squares: 14 edges remain of 24";
    EXPECT_TRUE(isSimple(net.boundary.outer));
    EXPECT_NEAR(area(net.footprint), 6 * a * a, 1e-3);
    for (const PanelPart& part : net.parts) EXPECT_NEAR(signedArea(part.outer), a * a, 1e-9 * a * a);
}

// Dihedrals: arccos of 1/3, 0, -1/3, -1/√5, -√5/3 (Coxeter, Regular Polytopes, table I): the groove is as
// wide open as the two tilts together, the supplement of the dihedral.
TEST(Fold, GroovesOfTheRegularSolids) {
    const std::vector<std::pair<int, double>> solids{{4, std::acos(1.0 / 3)},
                                                     {6, std::acos(0.0)},
                                                     {8, std::acos(-1.0 / 3)},
                                                     {12, std::acos(-1 / std::sqrt(5.0))},
                                                     {20, std::acos(-std::sqrt(5.0) / 3)}};
    const double t = 4;
    for (const auto& [faces, dihedral] : solids) {
        const Body body = bodyOf(regularSolid(faces));
        PlateRules rules = evenRules(body, t);
        rules.edges = foldTree(body, 0, faces - 1);
        const PlateSet set = buildPlates(body, rules);
        EXPECT_TRUE(codes(set).empty()) << faces;
        const auto panels = makePanels(set);
        ASSERT_EQ(panels.size(), 1U) << faces;
        const Panel& net = panels.front();
        ASSERT_EQ(net.folds.size(), static_cast<std::size_t>(faces - 1));
        double sum = 0;
        for (const Plate& p : set.plates) sum += signedArea(p.boundary.outer);
        EXPECT_NEAR(signedArea(net.boundary.outer) / sum, 1, 1e-9) << faces;
        EXPECT_TRUE(isSimple(net.boundary.outer)) << faces;
        const SkinEdge& edge = body.skin.edges.front();
        const double length = (body.skin.vertices[static_cast<std::size_t>(edge.a)] -
                               body.skin.vertices[static_cast<std::size_t>(edge.b)])
                                  .norm();
        for (const PanelFold& fold : net.folds) {
            EXPECT_NEAR(fold.angle, std::numbers::pi - dihedral, 1e-9) << faces;
            EXPECT_NEAR(fold.width, 2 * t * std::tan((std::numbers::pi - dihedral) / 2), 1e-9) << faces;
            EXPECT_NEAR((fold.to - fold.from).norm(), length, 1e-9) << faces;
            double tilts = 0;
            for (const int part : {fold.a, fold.b})
                for (const PanelEdge& e :
                     findPlate(set, net.parts[static_cast<std::size_t>(part)].plate)->boundary.edges)
                    if (e.mark == fold.mark) tilts += e.bevel;
            EXPECT_NEAR(fold.angle, tilts, 1e-9) << faces;
        }
        EXPECT_LT(refoldError(set, net), 1e-9) << faces;
    }
}

// The walls of a notch, folded into it from the U around them, are longer than the notch is wide.
TEST(Fold, FlapsThatMeetInANotchStayMitred) {
    const auto notched = [](double height) {
        const Body body = bodyOf(prism(
            {{0, 0}, {400, 0}, {400, 200}, {300, 200}, {260, 80}, {140, 80}, {100, 200}, {0, 200}}, height));
        PlateRules rules = evenRules(body, 5, JointKind::mitre);
        rules.edges = {{"top", "s3", JointKind::fold, {}}, {"top", "s5", JointKind::fold, {}}};
        return buildPlates(body, rules);
    };
    const PlateSet good = notched(50);
    EXPECT_TRUE(codes(good).empty());
    EXPECT_EQ(good.blanks.size(), 1U);
    const PlateSet set = notched(150);
    EXPECT_EQ(codes(set), std::vector<std::string>{"fold-overlap"});
    EXPECT_TRUE(set.blanks.empty());
    EXPECT_EQ(rolesOf(set), std::set<EdgeRole>{EdgeRole::mitre});
    const auto overlap = std::find_if(set.findings.begin(), set.findings.end(),
                                      [](const Finding& f) { return f.code == "fold-overlap"; });
    ASSERT_TRUE(overlap->at);
    EXPECT_FALSE(overlap->remedy.empty());
    EXPECT_NE(overlap->message.find("s3 and s5"), std::string::npos) << overlap->message;
    EXPECT_EQ(panelOf(makePanels(set), "top")->parts.size(), 0U);
    // The flaps' lower corners meet in the middle: 60 mm from the foot of a wall that leans by 1 in 3.
    const double meets = 60 * std::hypot(1, 1.0 / 3);
    EXPECT_EQ(codes(notched(meets)), std::vector<std::string>{"fold-overlap"}) << "no room for a cut";
    EXPECT_TRUE(codes(notched(meets - 0.1)).empty());
}

// A side of a tower on a deck, folded down into the hole that the tower leaves in the deck.
TEST(Fold, FlapLiesInTheHoleOfItsNeighbour) {
    const auto tower = [](int sides) {
        Polyhedron up = frustum(sides, 200, 170, 60);
        for (Vec3& p : up.vertices) p.z() += 100;
        for (PolyFace& f : up.faces) f.plane.offset += 100 * f.plane.normal.z();
        auto fused = occt::fuse({makeBox({-300, -250, 0}, {300, 250, 100}), up});
        if (!fused) throw std::runtime_error("not fused");
        for (std::size_t i = 0; i < fused->solid.faces.size(); ++i)
            fused->solid.faces[i].name = "f" + std::to_string(i);
        const Body body = bodyOf(fused->solid);
        PlateRules rules = evenRules(body, 6, JointKind::mitre);
        for (const SkinEdge& e : body.skin.edges)
            if (e.dihedral > std::numbers::pi && rules.edges.empty())
                rules.edges = {{body.skin.faces[static_cast<std::size_t>(e.left)].name,
                                body.skin.faces[static_cast<std::size_t>(e.right)].name,
                                JointKind::fold,
                                {}}};
        return buildPlates(body, rules);
    };
    const PlateSet set = tower(6);
    for (const Finding& f : set.findings) EXPECT_FALSE(f.code.starts_with("fold-")) << f.message;
    ASSERT_EQ(set.blanks.size(), 1U);
    const Panel& blank = set.blanks.front();
    ASSERT_EQ(blank.holes.size(), 1U);
    EXPECT_LT(signedArea(blank.holes.front().outer), 0);
    double inside = signedArea(blank.boundary.inner) + signedArea(blank.holes.front().inner);
    for (const PanelPart& part : blank.parts) {
        const Plate& plate = *findPlate(set, part.plate);
        inside -= signedArea(plate.boundary.inner);
        for (const PanelLoop& hole : plate.holes) inside -= signedArea(hole.inner);
    }
    EXPECT_NEAR(inside, 0, 1e-6) << "the inside face is whole at a valley";
    EXPECT_LT(refoldError(set, blank), 1e-9);
    // In a square hole the flap's foot, as wide as the hole, touches both sides: no room for a cut.
    EXPECT_EQ(codes(tower(4)), std::vector<std::string>{"fold-overlap"});
}

TEST(Fold, RingsAndUnlikeSheetsStayMitred) {
    const Body body = bodyOf(makeBox({0, 0, 0}, {400, 300, 200}));
    PlateRules rules = evenRules(body, 6);
    rules.edges = {{"port", "top", JointKind::fold, {}},
                   {"top", "starboard", JointKind::fold, {}},
                   {"starboard", "bottom", JointKind::fold, {}},
                   {"bottom", "port", JointKind::fold, {}}};
    const PlateSet ring = buildPlates(body, rules);
    EXPECT_EQ(codes(ring), std::vector<std::string>{"fold-loop"});
    EXPECT_TRUE(ring.blanks.empty());
    EXPECT_FALSE(rolesOf(ring).contains(EdgeRole::fold));
    rules.edges.pop_back();
    const PlateSet open = buildPlates(body, rules);
    EXPECT_TRUE(codes(open).empty());
    ASSERT_EQ(open.blanks.size(), 1U);
    EXPECT_NEAR(signedArea(open.blanks[0].boundary.outer), 400.0 * (200 + 300 + 200 + 300), 1e-6);
    for (std::size_t i = 0; i < rules.faces.size(); ++i)
        if (body.skin.faces[i].name == "top") rules.faces[i].stock = "other";
    const PlateSet unlike = buildPlates(body, rules);
    EXPECT_EQ(codes(unlike), (std::vector<std::string>{"fold-stock", "fold-stock"}));
    ASSERT_EQ(unlike.blanks.size(), 1U) << "starboard and bottom still fold";
    EXPECT_EQ(unlike.blanks[0].plates, (std::vector<std::string>{"bottom", "starboard"}));
}

TEST(Fold, AlikeAndHandedBlanks) {
    const Body box = bodyOf(makeBox({0, 0, 0}, {400, 300, 200}));
    PlateRules rules = evenRules(box, 6);
    rules.edges = {{"port", "top", JointKind::fold, {}}, {"starboard", "bottom", JointKind::fold, {}}};
    const auto panels = makePanels(buildPlates(box, rules));
    const Panel* both = panelOf(panels, "top");
    ASSERT_TRUE(both);
    EXPECT_EQ(both->copyCount(), 2U);
    EXPECT_EQ(both->copies.size(), 2U);
    const std::vector<std::string> second(both->plates.begin() + 2, both->plates.end());
    // The second copy's plates come in the order of the parts: sides with sides.
    EXPECT_EQ(both->parts[0].plate == "port" || both->parts[0].plate == "starboard",
              second[0] == "port" || second[0] == "starboard");
    // Two strips, port and starboard of a body that is the same upside down as long as no cap covers.
    const Body strips =
        bodyOf(prism({{-50, 0}, {50, 0}, {150, 80}, {100, 200}, {-100, 200}, {-150, 80}}, 300));
    for (const bool covered : {false, true}) {
        PlateRules even = evenRules(strips, 6);
        even.edges = {{"s1", "s2", JointKind::fold, {}}, {"s4", "s5", JointKind::fold, {}}};
        for (std::size_t i = 0; i < even.faces.size(); ++i)
            even.faces[i].rank = covered && strips.skin.faces[i].name != "top" ? 1 : 0;
        const auto all = makePanels(buildPlates(strips, even));
        const Panel* right = panelOf(all, "s1");
        const Panel* left = panelOf(all, "s4");
        ASSERT_TRUE(right && left);
        EXPECT_EQ(right == left, !covered);
        EXPECT_EQ(right->copyCount(), covered ? 1U : 2U);
        if (covered) {
            EXPECT_EQ(left->mirrorOf, right->name);
        }
    }
}

// Any folds of any body: what is made folds back to where its plates stand.
TEST(Fold, RefoldsToThePlatesPlaces) {
    const unsigned seed = seedFor("fold", 20261);
    Random random(seed);
    int blanks = 0, valleys = 0, overlaps = 0;
    for (int round = 0; round < 300 / slowdown; ++round) {
        const Body body = randomFoldable(random);
        PlateRules rules =
            rulesFor(body, {uniform(random, 3, 14)}, {pick(random, 0, 1), 0, pick(random, 0, 2)});
        rules.edges = randomFolds(body, random, pick(random, 1, 5));
        const PlateSet set = buildPlates(body, rules);
        for (const std::string& code : codes(set)) overlaps += code == "fold-overlap";
        for (const Panel& blank : set.blanks) {
            ++blanks;
            EXPECT_LT(refoldError(set, blank), 1e-9) << "round " << round;
            double sum = 0, bridged = signedArea(blank.boundary.outer);
            bool convex = true, valley = true;
            for (const PanelPart& p : blank.parts) sum += signedArea(p.outer);
            for (const PanelLoop& h : blank.holes) bridged += signedArea(h.outer);
            for (const PanelPart& p : blank.parts)
                for (const PanelLoop& h : findPlate(set, p.plate)->holes) sum += signedArea(h.outer);
            for (const PanelFold& f : blank.folds) {
                convex = convex && !f.valley;
                valley = valley && f.valley;
                valleys += f.valley;
            }
            if (convex) {
                EXPECT_NEAR(bridged / sum, 1, 1e-9) << "round " << round;
            }
            if (valley && blank.holes.empty()) {
                double inside = 0;
                for (const PanelPart& p : blank.parts) inside += signedArea(p.inner);
                EXPECT_NEAR(signedArea(blank.boundary.inner) / inside, 1, 1e-9) << "round " << round;
            }
            EXPECT_TRUE(isSimple(blank.boundary.outer)) << "round " << round;
            EXPECT_GE(bounds(blank.boundary.outer).min.minCoeff(), -1e-9);
        }
    }
    std::cout << blanks << " blanks, " << valleys << " valley folds, " << overlaps << " overlaps\n";
    EXPECT_GT(blanks, 150 / slowdown);
    EXPECT_GT(valleys, 0);
}
