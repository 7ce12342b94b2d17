#include "core/body/checks.h"
#include "core/body/pieces.h"
#include "core/document/file.h"
#include "core/geometry/occt.h"
#include "tests/body/make.h"
#include <filesystem>
#include <gtest/gtest.h>
#include <map>
#include <set>

using namespace slab;

namespace {

const MayMerge never = [](const std::string&, const std::string&) { return false; };

/// A hull, a house on it, a box flush with the hull's side, and a standing locker: everything reads subject
/// values.
Project boat() {
    ProfileShape hull;
    hull.outline = {sidePoint("keel", 0, 300, 900),     sidePoint("forefoot", 3000, 300, 900),
                    sidePoint("bow", 4200, 700, 400),   sidePoint("foredeck", 5000, 1500, 350),
                    sidePoint("deck", 3000, 1500, 900), sidePoint("transom", 0, 1500, 900)};
    Curve c;
    c.from = "bow";
    c.to = "foredeck";
    c.bulge = "120 mm";
    c.facets = "3";
    hull.curves = {c};
    TaperShape house;
    house.base = {planPoint("starboard", 800, -700), planPoint("front", 2500, -700),
                  planPoint("port", 2500, 700), planPoint("aft", 800, 700)};
    house.top = {planPoint("starboard", 900, -600), planPoint("front", 2300, -600),
                 planPoint("port", 2300, 600), planPoint("aft", 900, 600)};
    house.base_z = "1300 mm";
    house.top_z = "3000 mm";
    Form locker = boxForm("locker", {100, -300, 1500}, {500, 300, 1900});
    locker.standing = true;
    return projectOf({named("hull", hull), named("house", house),
                      boxForm("step", {2600, 200, 900}, {2900, 1000, 1200}), locker});
}

std::string report(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& f : findings) text += f.code + ": " + f.message + "\n";
    return text;
}

} // namespace

TEST(Join, oneFormNeedsNoBoolean) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, 0, 0}, {300, 200, 100})}));
    EXPECT_TRUE(body.findings.empty()) << report(body.findings);
    EXPECT_EQ(body.skin.bodies, 1);
    EXPECT_EQ(body.skin.edges.size(), 12U);
    EXPECT_DOUBLE_EQ(body.volume, 6e6);
    EXPECT_DOUBLE_EQ(body.area, 2 * (300 * 200 + 300 * 100 + 200 * 100));
    EXPECT_EQ(body.bounds, (Box3{{0, 0, 0}, {300, 200, 100}}));
    EXPECT_EQ(face(body.skin, "box/front")->form, "box");
    EXPECT_TRUE(body.pieces.empty());
}

TEST(Join, formsBecomeOneBodyWithNamedFaces) {
    const Body body = bodyOf(boat());
    EXPECT_EQ(body.skin.bodies, 2) << report(body.findings);
    EXPECT_LT(worstOffPlane(body.skin), 1e-9);
    std::set<std::string> names;
    for (const SkinFace& f : body.skin.faces) EXPECT_TRUE(names.insert(f.name).second) << f.name << " twice";
    for (const char* n : {"hull/keel", "hull/transom", "hull/bow~1", "hull/bow~3", "house/front", "house/top",
                          "step/port", "locker/top", "hull/port#1"})
        EXPECT_TRUE(names.contains(n)) << n;
    EXPECT_FALSE(names.contains("house/base")) << "inside the hull";
    EXPECT_EQ(face(body.skin, "locker/top")->body, 1);
    EXPECT_EQ(face(body.skin, "house/top")->body, 0);
    // foredeck and deck lie in one plane: one plate with the first name.
    ASSERT_NE(face(body.skin, "hull/foredeck"), nullptr);
    EXPECT_EQ(face(body.skin, "hull/foredeck")->aliases, std::vector<std::string>{"hull/deck"});
    EXPECT_EQ(face(body.skin, "hull/foredeck")->loops.size(), 2U) << "the house stands in it";
    const auto skin = makeSkin(toPolyhedron(body.skin, 0));
    EXPECT_TRUE(skin);
}

// |A ∪ B| by inclusion–exclusion in closed form for axis-parallel boxes, placed at random.
TEST(Join, volumesByInclusionExclusion) {
    auto random = seeded(31);
    for (int round = 0; round < 40 / slowdown; ++round) {
        Vec3 min[2], max[2];
        for (int i = 0; i < 2; ++i)
            for (int k = 0; k < 3; ++k) {
                min[i][k] = uniform(random, 0, 200);
                max[i][k] = min[i][k] + uniform(random, 150, 400);
            }
        if (round % 3 == 1) max[1].z() = max[0].z(); // flush
        if (round % 3 == 2) min[1].x() = max[0].x(); // face to face
        if ((max[1].array() <= min[1].array()).any()) continue;
        const Body body = bodyOf(projectOf({boxForm("a", min[0], max[0]), boxForm("b", min[1], max[1])}));
        const Vec3 both = (max[0].cwiseMin(max[1]) - min[0].cwiseMax(min[1])).cwiseMax(0);
        const double expected = (max[0] - min[0]).prod() + (max[1] - min[1]).prod() - both.prod();
        EXPECT_NEAR(body.volume, expected, 1e-9 * expected) << round;
        EXPECT_EQ(body.skin.bodies, 1) << report(body.findings);
        EXPECT_LT(worstOffPlane(body.skin), 1e-10);
    }
}

// Rescaling the joined skin and joining at the other scale agree.
TEST(Join, rescaledEqualsJoinedAgain) {
    const Project p = boat();
    const Body unit = bodyOf(p, 1);
    for (double scale : {0.4, 0.125, 2.0}) {
        const Body again = bodyOf(p, scale);
        const Body quick = rescaled(unit, 1, resolvedAt(p, scale));
        ASSERT_EQ(faceNames(quick.skin), faceNames(again.skin));
        EXPECT_NEAR(quick.volume, again.volume, 1e-9 * again.volume);
        EXPECT_NEAR(quick.area, again.area, 1e-9 * again.area);
        ASSERT_EQ(quick.skin.edges.size(), again.skin.edges.size());
        for (std::size_t i = 0; i < again.skin.edges.size(); ++i)
            EXPECT_NEAR(quick.skin.edges[i].dihedral, again.skin.edges[i].dihedral, 1e-9);
        for (const SkinFace& f : again.skin.faces) {
            EXPECT_NEAR(face(quick.skin, f.name)->plane.offset, f.plane.offset, 1e-9 * 5000) << f.name;
            EXPECT_NEAR(areaOf(quick.skin, f.name), areaOf(again.skin, f.name), 1e-9 * again.area) << f.name;
        }
        EXPECT_LT(worstOffPlane(quick.skin), 1e-9);
    }
}

// Subject 4500 × 1800 × 1400 at 1:2.5 -> 1800 × 720 × 560; area × 0.16, volume × 0.064
// (reference-values 7.7).
TEST(Join, scaleOfLengthsAreasVolumes) {
    const Project p = projectOf({boxForm("b", {0, 0, 0}, {4500, 1800, 1400})});
    const Body one = bodyOf(p, 1), small = bodyOf(p, 0.4);
    EXPECT_NEAR((small.bounds.size() - Vec3(1800, 720, 560)).norm(), 0, 1e-9);
    EXPECT_NEAR(small.area / one.area, 0.16, 1e-12);
    EXPECT_NEAR(small.volume / one.volume, 0.064, 1e-12);
}

TEST(Join, sameInputSameBodyToTheBit) {
    const Project p = boat();
    EXPECT_EQ(bodyOf(p), bodyOf(p));
}

TEST(Join, flushFacesMergeByMaterial) {
    const Project p =
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 50}), boxForm("b", {50, 0, 0}, {200, 100, 50})});
    const Body one = bodyOf(p);
    EXPECT_EQ(one.skin.faces.size(), 6U);
    ASSERT_NE(face(one.skin, "a/top"), nullptr);
    EXPECT_EQ(face(one.skin, "a/top")->aliases, std::vector<std::string>{"b/top"});
    EXPECT_EQ(face(one.skin, "b/front")->aliases, std::vector<std::string>{});

    const MayMerge sides = [](const std::string& a, const std::string& b) {
        return a != "a/top" && b != "a/top";
    };
    const Body two = bodyOf(p, 1, sides);
    ASSERT_NE(face(two.skin, "b/top"), nullptr);
    EXPECT_NEAR(areaOf(two.skin, "a/top"), 100 * 100, 1e-9) << "the first form owns what both cover";
    EXPECT_NEAR(areaOf(two.skin, "b/top"), 100 * 100, 1e-9);
    EXPECT_TRUE(face(two.skin, "a/top")->aliases.empty()) << "b/top has its own plate";
    ASSERT_NE(edge(two.skin, "a/top", "b/top"), nullptr);
    EXPECT_NEAR(edge(two.skin, "a/top", "b/top")->dihedral, 3.14159265358979, 1e-12);
    EXPECT_NEAR(two.volume, one.volume, 1e-6);
}

TEST(Join, piecesKeepTheirNumbers) {
    // A wall across a deck cuts it in two; the keys saved keep the numbers when a third piece appears.
    Project p = projectOf(
        {boxForm("deck", {0, 0, 0}, {900, 300, 50}), boxForm("wall", {500, -10, -10}, {550, 310, 200})});
    const Body first = bodyOf(p);
    ASSERT_NE(face(first.skin, "deck/top#1"), nullptr);
    ASSERT_NE(face(first.skin, "deck/top#2"), nullptr);
    EXPECT_GT(areaOf(first.skin, "deck/top#1"), areaOf(first.skin, "deck/top#2")) << "in the order of x";
    EXPECT_FALSE(first.pieces.empty());
    for (const PieceKey& k : first.pieces) EXPECT_NE(k.name.find('#'), std::string::npos);
    EXPECT_EQ(bodyOf(p, 1, {}, first.pieces), first) << "joined again with its own keys";

    std::vector<PieceKey> swapped = first.pieces;
    for (PieceKey& k : swapped) k.name.back() = k.name.back() == '1' ? '2' : '1';
    const Body turned = bodyOf(p, 1, {}, swapped);
    EXPECT_LT(areaOf(turned.skin, "deck/top#1"), areaOf(turned.skin, "deck/top#2")) << "keys decide, not x";
    EXPECT_EQ(faceNames(bodyOf(p, 0.4, {}, swapped).skin), faceNames(turned.skin)) << "at any scale";
    EXPECT_LT(areaOf(bodyOf(p, 0.4, {}, swapped).skin, "deck/top#1"),
              areaOf(turned.skin, "deck/top#2") * 0.16);

    p.forms.push_back(boxForm("rib", {200, -10, -10}, {250, 310, 200}));
    const Body three = bodyOf(p, 1, {}, first.pieces);
    EXPECT_NEAR(areaOf(three.skin, "deck/top#2"), 350 * 300, 1e-6) << "the far end keeps its number";
    EXPECT_NE(face(three.skin, "deck/top#3"), nullptr);
}

// Numbers run along x, of pieces side by side along y; at every scale the same piece has the same number.
TEST(Join, piecesAreNumberedAlongTheBodyAtEveryScale) {
    Form hull = profile("hull", {sidePoint("keel", 0, 300, 1125), sidePoint("knuckle", 1900, 300, 1125),
                                 sidePoint("bilge", 3100, 300, 900), sidePoint("stem", 4300, 300, 310),
                                 sidePoint("head", 5200, 1900, 400), sidePoint("shoulder", 4000, 1900, 1000),
                                 sidePoint("waist", 2000, 1900, 1125), sidePoint("stern", 0, 1900, 1125)});
    for (OutlinePoint& point : std::get<ProfileShape>(hull.shape).outline)
        if (point.z == mm(1900)) point.side = point.x == mm(0) ? "" : "deck";
    // A wall along the deck and two across it: six pieces, in pairs at one x.
    const Project p = projectOf({hull, boxForm("long wall", {-10, -50, 1800}, {3600, 50, 2200}),
                                 boxForm("wall", {700, -1200, 1800}, {800, 1200, 2200}),
                                 boxForm("fore wall", {1650, -1200, 1800}, {1700, 1200, 2200})});
    const Body unit = bodyOf(p);
    const auto centres = [](const Body& body, double scale) {
        std::map<std::string, Vec3> all;
        for (const SkinFace& f : body.skin.faces)
            if (f.name.find('#') != std::string::npos) all[f.name] = faceCentroid(body.skin, f) / scale;
        return all;
    };
    const auto first = centres(unit, 1);
    for (const char* side : {"hull/port#", "hull/starboard#", "hull/deck#"}) {
        double x = -1e9;
        for (int n = 1; first.contains(side + std::to_string(n)); ++n) {
            const Vec3 at = first.at(side + std::to_string(n));
            EXPECT_GT(at.x(), x - 1e-6) << side << n;
            x = at.x();
        }
    }
    EXPECT_TRUE(first.contains("hull/port#3")) << report(unit.findings);
    EXPECT_TRUE(first.contains("hull/deck#5"));
    EXPECT_LT(first.at("hull/deck#1").y(), first.at("hull/deck#2").y()) << "starboard before port";
    auto random = seeded(33);
    for (int round = 0; round < 12 / slowdown + 1; ++round) {
        const double scale = uniform(random, 0.05, 2);
        const auto here = centres(bodyOf(p, scale), scale),
                   quick = centres(rescaled(unit, 1, resolvedAt(p, scale)), scale);
        ASSERT_EQ(here.size(), first.size());
        ASSERT_EQ(quick.size(), first.size());
        for (const auto& [name, at] : first) {
            ASSERT_TRUE(here.contains(name)) << name;
            EXPECT_LT((here.at(name) - at).norm(), 1e-6) << name << " at " << scale;
            EXPECT_LT((quick.at(name) - at).norm(), 1e-6) << name << " at " << scale;
        }
    }
}

TEST(Join, nearPlanesAreMadeOne) {
    // 0.1 mm out of flush, and standing 0.1 mm above what it stands on.
    const Body body = bodyOf(projectOf(
        {boxForm("a", {0, 0, 0}, {300, 200, 100}), boxForm("b", {100, 50, 100.1}, {300.1, 150, 180})}));
    EXPECT_EQ(body.skin.bodies, 1) << report(body.findings);
    ASSERT_NE(find(body.findings, "planes-snapped"), nullptr);
    EXPECT_EQ(find(body.findings, "planes-snapped")->severity, Severity::note);
    EXPECT_EQ(find(body.findings, "sliver-face"), nullptr);
    EXPECT_NEAR(body.volume, 300 * 200 * 100 + 200 * 100 * 80.0, 1)
        << "b grew down to the roof and back to the front";
    ASSERT_NE(face(body.skin, "a/front"), nullptr);
    EXPECT_EQ(face(body.skin, "a/front")->aliases, std::vector<std::string>{"b/front"});
    // A step of 3 mm is meant.
    const Body step = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {300, 200, 100}), boxForm("b", {100, 50, 100}, {303, 150, 180})}));
    EXPECT_EQ(find(step.findings, "planes-snapped"), nullptr);
    EXPECT_NEAR(step.volume, 300 * 200 * 100 + 203 * 100 * 80.0, 1e-6);
}

TEST(Join, leaningPlanesAreMadeOne) {
    Form b = boxForm("b", {100, 0, 50}, {200, 200, 180});
    b.at.pitch = "0.01 deg";
    const Body body = bodyOf(projectOf({boxForm("a", {0, 0, 0}, {300, 200, 180}), b}));
    EXPECT_NE(find(body.findings, "planes-snapped"), nullptr) << report(body.findings);
    EXPECT_EQ(find(body.findings, "sliver-face"), nullptr) << report(body.findings);
    EXPECT_LT(worstOffPlane(body.skin), 1e-9);
}

TEST(Join, planesThatCannotFollowAreReported) {
    const auto pyramid = [](const std::string& name, double x, double y) {
        Form f = boxForm(name, {x, y, 0}, {x + 300, y + 300, 200});
        for (OutlinePoint& p : std::get<TaperShape>(f.shape).top) {
            p.x = mm(x + 150);
            p.y = mm(y + 150);
        }
        return f;
    };
    // The whole form 0.1 mm off: all its planes move together and it is the same pyramid again.
    const Body same = bodyOf(projectOf({pyramid("a", 0, 0), pyramid("b", 0.1, 0)}));
    EXPECT_NE(find(same.findings, "planes-snapped"), nullptr) << report(same.findings);
    EXPECT_EQ(same.skin.faces.size(), 5U);
    EXPECT_NEAR(same.volume, 300 * 300 * 200 / 3.0, 1e-6);
    // A box flush with one side of the pyramid's four-sided tip: the pyramid cannot bend.
    Form wedge = boxForm("w", {-100, 0, -50}, {150, 300, 200});
    auto& shape = std::get<TaperShape>(wedge.shape);
    shape.base[1].x = shape.base[2].x = mm(-37.5 + 0.1);
    shape.top[1].x = shape.top[2].x = mm(150 + 0.1);
    const Body near = bodyOf(projectOf({wedge, pyramid("p", 0, 0)}));
    const Finding* f = find(near.findings, "planes-near");
    ASSERT_NE(f, nullptr) << report(near.findings);
    EXPECT_EQ(f->severity, Severity::look);
    EXPECT_FALSE(f->remedy.empty());
    // The remedy: the same dimension.
    shape.base[1].x = shape.base[2].x = mm(-37.5);
    shape.top[1].x = shape.top[2].x = mm(150);
    EXPECT_EQ(find(bodyOf(projectOf({wedge, pyramid("p", 0, 0)})).findings, "planes-near"), nullptr);
}

TEST(Join, edgeContactIsFound) {
    const Body edge = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 0}, {200, 200, 100})}));
    const Finding* f = find(edge.findings, "edge-contact");
    ASSERT_NE(f, nullptr) << report(edge.findings);
    EXPECT_EQ(f->severity, Severity::stop);
    EXPECT_NE(f->remedy.find("thickness"), std::string::npos);
    ASSERT_TRUE(f->at);
    EXPECT_NEAR((*f->at)[0], 100, 1e-9);
    EXPECT_NEAR(edge.volume, 2e6, 1e-6) << "what is sound stays";
    const Body point = bodyOf(projectOf(
        {boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 100}, {200, 200, 200})}));
    EXPECT_NE(find(point.findings, "edge-contact"), nullptr);
    // The remedy removes it.
    const Body overlap = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {80, 80, 0}, {200, 200, 100})}));
    EXPECT_TRUE(overlap.findings.empty()) << report(overlap.findings);
}

TEST(Join, edgeContactWithinOneBodyIsFound) {
    // An L of three boxes whose ends touch along an edge only.
    const Body ring = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {0, 0, 100}, {200, 200, 150}),
                   boxForm("c", {100, 100, 0}, {200, 200, 100})}));
    EXPECT_NE(find(ring.findings, "edge-contact"), nullptr) << report(ring.findings);
    for (int b = 0; b < ring.skin.bodies; ++b) EXPECT_TRUE(makeSkin(toPolyhedron(ring.skin, b)));
    EXPECT_EQ(ring.skin.bodies, 1) << "it hangs together above";
    EXPECT_NEAR(ring.volume, 2 * 1e6 + 200 * 200 * 50, 1e-6);
}

TEST(Join, edgeContactsLeaveClosedSkinsOfTheTrueVolume) {
    // Two posts that touch along an edge, between a floor and a roof: the edge is doubled from end to end.
    const auto column = [](const std::string& name, double x, double y) {
        return boxForm(name, {x, y, 0}, {x + 100, y + 100, 100});
    };
    const Form floor = boxForm("floor", {-20, -20, -50}, {220, 220, 10}),
               roof = boxForm("roof", {-20, -20, 90}, {220, 220, 150});
    const double plates = 2 * 240 * 240 * 60.0, posts = 2 * 100 * 100 * 80.0;
    const Body between = bodyOf(projectOf({column("a", 0, 0), column("b", 100, 100), floor, roof}));
    ASSERT_NE(find(between.findings, "edge-contact"), nullptr) << report(between.findings);
    EXPECT_EQ(find(between.findings, "join-failed"), nullptr) << report(between.findings);
    EXPECT_EQ(between.skin.bodies, 1);
    EXPECT_TRUE(makeSkin(toPolyhedron(between.skin, 0)));
    EXPECT_NEAR(between.volume, plates + posts, 1e-6);
    // Overlapping forms in the same cluster are not counted twice.
    const Body apart = bodyOf(
        projectOf({column("a", 0, 0), column("b", 100, 100), boxForm("c", {-50, 20, 20}, {50, 80, 80})}));
    ASSERT_NE(find(apart.findings, "edge-contact"), nullptr) << report(apart.findings);
    EXPECT_EQ(apart.skin.bodies, 2);
    EXPECT_NEAR(apart.volume, 2e6 + 50 * 60 * 60, 1e-6);
    // A point: a corner on a corner, joined elsewhere.
    const Body point = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 100}, {200, 200, 200}),
                   boxForm("c", {-50, -50, 50}, {50, 50, 250}), boxForm("d", {0, 0, 180}, {150, 150, 250})}));
    ASSERT_NE(find(point.findings, "edge-contact"), nullptr) << report(point.findings);
    EXPECT_EQ(point.skin.bodies, 1) << report(point.findings);
    EXPECT_TRUE(makeSkin(toPolyhedron(point.skin, 0)));
    const double c = 100 * 100 * 200 - 50 * 50 * 50, d = 150 * 150 * 70 - 50 * 50 * 70 - 50 * 50 * 20;
    EXPECT_NEAR(point.volume, 2e6 + c + d, 1e-6);
}

TEST(Join, looseAndSwallowedForms) {
    const Body loose = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {300, 0, 0}, {350, 100, 100})}));
    ASSERT_NE(find(loose.findings, "loose-piece"), nullptr);
    EXPECT_EQ(find(loose.findings, "loose-piece")->about, std::vector<std::string>{"form:b"});
    EXPECT_EQ(loose.skin.bodies, 2);
    const Body inside = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {10, 10, 10}, {50, 50, 50})}));
    ASSERT_NE(find(inside.findings, "form-swallowed"), nullptr) << report(inside.findings);
    EXPECT_EQ(inside.skin.faces.size(), 6U);
    Project standing =
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {300, 0, 0}, {350, 100, 100})});
    standing.forms[1].standing = true;
    EXPECT_TRUE(bodyOf(standing).findings.empty());
}

TEST(Join, sliversAreFoundAtBuildSize) {
    const Project p =
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {0, 0, 0}, {100.8, 50, 50})});
    const Body body = bodyOf(p);
    ASSERT_NE(find(body.findings, "sliver-face"), nullptr) << report(body.findings);
    EXPECT_NE(find(body.findings, "sliver-edge"), nullptr);
    // Twice as large it is 1.6 mm and no sliver, and the rescaled body knows.
    EXPECT_EQ(find(rescaled(body, 1, resolvedAt(p, 2)).findings, "sliver-face"), nullptr);
    EXPECT_EQ(find(bodyOf(p, 2).findings, "sliver-face"), nullptr);
}

TEST(Join, mirroredFormsAreAlike) {
    Project p = boat();
    Form pod = boxForm("pod", {1000, 700, 600}, {1600, 1100, 900});
    pod.mirror = true;
    p.forms.push_back(pod);
    const Body body = bodyOf(p);
    for (const char* side : {"/front", "/top", "/back"})
        EXPECT_NEAR(areaOf(body.skin, std::string("pod port") + side),
                    areaOf(body.skin, std::string("pod starboard") + side), 1e-6)
            << side;
    EXPECT_GT(areaOf(body.skin, "pod port/port"), 0);
    // The other hand keeps its side's name: "port" of the mirrored form faces starboard.
    EXPECT_LT(face(body.skin, "pod starboard/port")->plane.normal.y(), 0);
}

TEST(Join, stopsWhenAsked) {
    std::stop_source source;
    source.request_stop();
    const Body body = joinForms(resolvedAt(boat()), {}, {}, Job{source.get_token(), {}});
    EXPECT_EQ(find(body.findings, "join-failed"), nullptr) << "a stop is no failure";
}

TEST(Join, nothingToJoin) {
    const Body none = bodyOf(projectOf({}));
    EXPECT_EQ(none.skin.bodies, 0);
    EXPECT_EQ(none.volume, 0);
    EXPECT_TRUE(none.findings.empty());
}

// Random bodies of boxes, tapers and turned boxes: closed, flat to rounding, edges paired, and the volume is
// that of a count of random points against the forms themselves.
TEST(Join, randomBodiesAreSound) {
    auto random = seeded(41);
    int joined = 0;
    for (int round = 0; round < 60 / slowdown; ++round) {
        std::vector<Form> forms;
        for (int i = 0; i < 2 + round % 4; ++i) {
            const Vec3 min(uniform(random, 0, 500), uniform(random, 0, 500), uniform(random, 0, 300));
            const Vec3 max =
                min + Vec3(uniform(random, 200, 600), uniform(random, 200, 600), uniform(random, 200, 600));
            Form f = boxForm("f" + std::to_string(i), min, max);
            if (i % 3 == 1)
                for (OutlinePoint& c : std::get<TaperShape>(f.shape).top) {
                    c.x = "(" + c.x + ") * 0.8";
                    c.y = "(" + c.y + ") * 0.7";
                }
            if (i % 3 == 2) f.at.yaw = std::to_string(below(random, 60)) + " deg";
            forms.push_back(f);
        }
        const ResolvedForms resolved = resolvedAt(projectOf(forms));
        const Body body = joinForms(resolved, round % 2 ? never : MayMerge{});
        EXPECT_LT(worstOffPlane(body.skin), 1e-9) << round;
        EXPECT_EQ(find(body.findings, "join-failed"), nullptr) << round << report(body.findings);
        double smallest = 1e300, sum = 0;
        for (const FormSolid& s : resolved.solids) {
            smallest = std::min(smallest, volume(s.solid));
            sum += volume(s.solid);
        }
        EXPECT_LE(body.volume, sum * (1 + 1e-9));
        EXPECT_GE(body.volume, smallest);
        for (int b = 0; b < body.skin.bodies; ++b) {
            const auto skin = makeSkin(toPolyhedron(body.skin, b));
            ASSERT_TRUE(skin) << round << ": " << skin.error().message;
            const auto v = occt::volume(toPolyhedron(body.skin, b));
            ASSERT_TRUE(v) << round << ": " << v.error().message;
            EXPECT_NEAR(*v, volume(toPolyhedron(body.skin, b)), 1e-6 * *v);
        }
        joined += body.skin.bodies == 1 ? 1 : 0;
        const Polyhedron all = toPolyhedron(body.skin);
        for (int i = 0; i < 200; ++i) {
            const Vec3 at(uniform(random, 0, 1100), uniform(random, 0, 1100), uniform(random, 0, 900));
            const bool expected = std::any_of(resolved.solids.begin(), resolved.solids.end(),
                                              [&](const FormSolid& s) { return contains(s.solid, at); });
            EXPECT_EQ(contains(all, at), expected) << round << " at " << at.transpose();
        }
    }
    std::printf("%d of %d bodies in one piece\n", joined, 60 / slowdown);
    EXPECT_GT(joined, 0);
}

TEST(Join, samplesJoinCleanly) {
    const std::filesystem::path folder = std::filesystem::path(SLABSIDE_SOURCE_DIR) / "samples";
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".json") continue;
        const auto project = loadProject(entry.path());
        ASSERT_TRUE(project) << entry.path() << project.error().message;
        const ResolvedForms forms = resolvedAt(*project);
        const Body body = joinForms(forms, {});
        for (const auto* findings : {&forms.findings, &body.findings})
            for (const Finding& f : *findings) EXPECT_EQ(f.severity, Severity::note) << f.message;
        EXPECT_LT(worstOffPlane(body.skin), 1e-9);
        ++count;
    }
    EXPECT_GE(count, 1);
}
