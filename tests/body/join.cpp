#include "core/body/checks.h"
#include "core/document/file.h"
#include "core/geometry/occt.h"
#include "tests/body/make.h"
#include <filesystem>
#include <gtest/gtest.h>
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

TEST(Join, formsThatCrossBeyondMeasureAreRefusedAtOnce) {
    Project project;
    const auto boxes = [&](int count, double apart) {
        project.forms.clear();
        for (int i = 0; i < count; ++i)
            project.forms.push_back(
                boxForm("b" + std::to_string(i), {apart * i, 0, 0}, {apart * i + 300, 300, 300}));
        return bodyOf(project);
    };
    // All in one heap: 55 × 54 / 2 pairs.
    const Body heap = boxes(55, 1);
    const Finding* refused = find(heap.findings, "too-many-crossings");
    ASSERT_NE(refused, nullptr);
    EXPECT_NE(refused->message.find("1485 places"), std::string::npos) << refused->message;
    EXPECT_EQ(heap.skin.faces.size(), 0U);
    // As many in a row, each over the next, are joined.
    const Body row = boxes(55, 200);
    EXPECT_EQ(find(row.findings, "too-many-crossings"), nullptr);
    EXPECT_EQ(row.skin.bodies, 1);
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
