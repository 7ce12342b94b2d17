#include "core/body/closing.h"
#include "core/body/flank.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

/// Convex outline: points on an ellipse.
Corners ellipse(std::mt19937_64& random, int n) {
    Corners corners;
    for (int i = 0; i < n; ++i) {
        const double a = 2 * std::numbers::pi * (i + uniform(random, 0, 0.7)) / n;
        Corner c;
        c.name = c.side = "s" + std::to_string(i);
        c.at = Vec2(1000 * std::cos(a), 400 * std::sin(a));
        c.half = uniform(random, 100, 500);
        corners.push_back(c);
    }
    return corners;
}

double prismVolume(const Corners& c, const std::array<int, 3>& t) {
    const auto at = [&](int i) { return c[std::size_t(t[std::size_t(i)])]; };
    return cross2(at(1).at - at(0).at, at(2).at - at(0).at) / 2 * (at(0).half + at(1).half + at(2).half) / 3;
}

} // namespace

// Square frustum, base 600, top 400, height 400 (reference-values 7.4).
TEST(Taper, frustumMatchesThePublishedFigures) {
    TaperShape s;
    s.base = {planPoint("a", -300, -300), planPoint("b", 300, -300), planPoint("c", 300, 300),
              planPoint("d", -300, 300)};
    s.top = {planPoint("a", -200, -200), planPoint("b", 200, -200), planPoint("c", 200, 200),
             planPoint("d", -200, 200)};
    s.base_z = "0";
    s.top_z = "400 mm";
    const Body body = bodyOf(projectOf({named("frustum", s)}));
    EXPECT_TRUE(body.findings.empty());
    EXPECT_EQ(faceNames(body.skin), (std::vector<std::string>{"frustum/a", "frustum/b", "frustum/base",
                                                              "frustum/c", "frustum/d", "frustum/top"}));
    EXPECT_NEAR(areaOf(body.skin, "frustum/a"), 206155.3, 0.05);
    EXPECT_NEAR(degrees(edge(body.skin, "frustum/a", "frustum/b")->dihedral), 93.372, 5e-4);
    EXPECT_NEAR(degrees(edge(body.skin, "frustum/a", "frustum/base")->dihedral), 75.964, 5e-4);
    EXPECT_NEAR(degrees(edge(body.skin, "frustum/a", "frustum/top")->dihedral), 104.036, 5e-4);
    // Volume of a frustum = h/3 (A + a + √(A a)), textbook.
    EXPECT_NEAR(body.volume, 400.0 / 3 * (360000 + 160000 + 240000), 1e-3);
}

TEST(Taper, pointAndRidge) {
    TaperShape s;
    s.base = {planPoint("a", 0, 0), planPoint("b", 300, 0), planPoint("c", 300, 200), planPoint("d", 0, 200)};
    for (const char* n : {"a", "b", "c", "d"}) s.top.push_back(planPoint(n, 150, 100));
    s.base_z = "0";
    s.top_z = "90 mm";
    const auto pyramid = resolvedAt(projectOf({named("p", s)}));
    EXPECT_EQ(only(pyramid).solid.faces.size(), 5U);
    EXPECT_NEAR(volume(only(pyramid).solid), 300 * 200 * 90 / 3.0, 1e-6);

    s.top = {planPoint("a", 50, 100), planPoint("b", 250, 100), planPoint("c", 250, 100),
             planPoint("d", 50, 100)};
    const auto ridge = resolvedAt(projectOf({named("r", s)}));
    EXPECT_EQ(only(ridge).solid.faces.size(), 5U) << "no top";
    // Wedge: h b (2a + c) / 6 with base a × b and ridge c (textbook).
    EXPECT_NEAR(volume(only(ridge).solid), 90 * 200 * (2 * 300 + 200) / 6.0, 1e-6);

    std::swap(s.base, s.top); // standing on its ridge
    EXPECT_NEAR(volume(only(resolvedAt(projectOf({named("r", s)}))).solid), 90 * 200 * 800 / 6.0, 1e-6);
}

TEST(Taper, leaningSideIsSplitToTheFullerBody) {
    TaperShape s;
    s.base = {planPoint("a", 0, 0), planPoint("b", 300, 0), planPoint("c", 300, 300), planPoint("d", 0, 300)};
    s.top = {planPoint("a", 0, 0), planPoint("b", 260, 40), planPoint("c", 300, 300), planPoint("d", 0, 300)};
    s.base_z = "0";
    s.top_z = "200 mm";
    const auto forms = resolvedAt(projectOf({named("t", s)}));
    ASSERT_EQ(forms.solids.size(), 1U);
    const Polyhedron& solid = forms.solids[0].solid;
    const Finding* note = find(forms.findings, "side-split");
    ASSERT_NE(note, nullptr);
    EXPECT_EQ(note->severity, Severity::note);
    std::vector<std::string> names;
    for (const PolyFace& f : solid.faces) names.push_back(f.name);
    for (const char* n : {"a#1", "a#2", "b#1", "b#2", "c", "d", "base", "top"})
        EXPECT_NE(std::find(names.begin(), names.end(), n), names.end()) << n;
    const auto skin = makeSkin(solid);
    ASSERT_TRUE(skin);
    for (const SkinEdge& e : skin->edges) EXPECT_LT(e.dihedral, std::numbers::pi) << "every break is a ridge";
}

TEST(Taper, notchedOutlineAndEitherDirection) {
    for (bool turned : {false, true}) {
        TaperShape s;
        s.base = {planPoint("a", 0, 0),     planPoint("b", 300, 0),   planPoint("c", 300, 100),
                  planPoint("d", 100, 100), planPoint("e", 100, 300), planPoint("f", 0, 300)};
        if (turned) std::reverse(s.base.begin(), s.base.end());
        s.top = s.base;
        s.base_z = "100 mm";
        s.top_z = turned ? "0 mm" : "200 mm";
        EXPECT_NEAR(volume(only(resolvedAt(projectOf({named("l", s)}))).solid), 100 * (300 * 100 + 100 * 200),
                    1e-6);
    }
}

TEST(Profile, boxLikeHullHasOneFlankASide) {
    const Body body = bodyOf(
        projectOf({profile("hull", {sidePoint("keel", 0, 0, 300), sidePoint("bow", 1000, 0, 300),
                                    sidePoint("deck", 1200, 500, 200), sidePoint("transom", 0, 500, 200)})}));
    EXPECT_TRUE(body.findings.empty());
    EXPECT_EQ(faceNames(body.skin),
              (std::vector<std::string>{"hull/bow", "hull/deck", "hull/keel", "hull/port", "hull/starboard",
                                        "hull/transom"}));
    EXPECT_GT(face(body.skin, "hull/port")->plane.normal.y(), 0.9);
    EXPECT_LT(face(body.skin, "hull/starboard")->plane.normal.y(), -0.9);
    EXPECT_LT(face(body.skin, "hull/keel")->plane.normal.z(), -0.9);
    // ∫ 2 h over the outline; h falls linearly from 300 at z = 0 to 200 at z = 500, width 1000 + 0.4 z.
    EXPECT_NEAR(body.volume,
                2 * (300 * 1000 * 500.0 + (300 * 0.4 - 0.2 * 1000) * 500 * 500 / 2 -
                     0.2 * 0.4 * 500 * 500 * 500 / 3.0),
                1e-3);
}

TEST(Profile, namesDoNotDependOnTheOutlinesDirection) {
    std::vector<OutlinePoint> outline{sidePoint("keel", 0, 0, 300), sidePoint("bow", 1000, 0, 300),
                                      sidePoint("deck", 1200, 500, 200), sidePoint("transom", 0, 500, 200)};
    const Body here = bodyOf(projectOf({profile("h", outline)}));
    // The same sides, walked the other way: a side is then named by its other end, so `side` holds the name.
    for (OutlinePoint& p : outline) p.side = p.name;
    std::vector<OutlinePoint> back(outline.rbegin(), outline.rend());
    for (std::size_t i = 0; i < back.size(); ++i) back[i].side = back[(i + 1) % back.size()].name;
    const Body there = bodyOf(projectOf({profile("h", back)}));
    for (const SkinFace& f : here.skin.faces) {
        ASSERT_NE(face(there.skin, f.name), nullptr) << f.name;
        EXPECT_NEAR((face(there.skin, f.name)->plane.normal - f.plane.normal).norm(), 0, 1e-12) << f.name;
    }
}

TEST(Profile, knifeEdgesAndPoints) {
    // A wedge with a sharp stem: half-width 0 at both stem points.
    const auto stem = resolvedAt(
        projectOf({profile("w", {sidePoint("keel", 0, 0, 100), sidePoint("stem", 400, 0, 0),
                                 sidePoint("deck", 400, 200, 0), sidePoint("stern", 0, 200, 100)})}));
    EXPECT_EQ(only(stem).solid.faces.size(), 5U) << "no stem face";
    EXPECT_NEAR(volume(only(stem).solid), 2 * 100 * 400 / 2.0 * 200, 1e-6);
    // One end in a point: the sides that meet there are triangles.
    const auto point =
        resolvedAt(projectOf({profile("p", {sidePoint("keel", 0, 0, 100), sidePoint("nose", 300, 150, 0),
                                            sidePoint("deck", 0, 300, 100)})}));
    const Polyhedron& solid = only(point).solid;
    EXPECT_EQ(solid.faces.size(), 5U);
    EXPECT_NEAR(volume(solid), 200 * 300 * 300 / 3.0, 1e-6);
}

// Over corners in general position every split into triangles has n − 2 pieces; the chosen one is at least as
// full as any fan, closed, flat, and alike on both sides.
TEST(Profile, splitFlanksAreTheFullest) {
    auto random = seeded(21);
    int checked = 0;
    for (int round = 0; round < 60; ++round) {
        const Corners corners = ellipse(random, 4 + round % 9);
        const FlankSplit split = splitFlank(corners, 1e-6 * bounds(ringOf(corners)).size().norm());
        if (split.pieces.size() < corners.size() - 2) continue; // four corners lie in one plane by chance
        ASSERT_EQ(split.pieces.size(), corners.size() - 2);
        ++checked;
        double full = 0;
        for (const auto& p : split.pieces) full += prismVolume(corners, {p[0], p[1], p[2]});
        const int n = static_cast<int>(corners.size());
        for (int k = 0; k < n; ++k) {
            double fan = 0;
            for (int i = 1; i + 1 < n; ++i) fan += prismVolume(corners, {k, (k + i) % n, (k + i + 1) % n});
            EXPECT_GE(full, fan - 1e-6);
        }
        const auto made = makeProfile(corners);
        ASSERT_TRUE(made) << made.error().message;
        EXPECT_TRUE(checkClosed(made->solid, 1e-9));
        EXPECT_NEAR(volume(made->solid), 2 * full, 1e-9 * full);
        const auto skin = makeSkin(made->solid);
        ASSERT_TRUE(skin);
        for (const SkinEdge& e : skin->edges) {
            const std::string &l = made->solid.faces[std::size_t(e.left)].name,
                              &r = made->solid.faces[std::size_t(e.right)].name;
            if (l.starts_with("port") && r.starts_with("port")) {
                EXPECT_LT(e.dihedral, std::numbers::pi);
            }
        }
    }
    EXPECT_GT(checked, 40);
}

// Half-widths that are linear over the outline give one flank, whatever the outline; with `breaks` vertical
// kinks in the half-width they give one piece more each.
TEST(Profile, flatFlanksStayWhole) {
    auto random = seeded(22);
    for (int round = 0; round < 40; ++round) {
        Corners corners = ellipse(random, 5 + round % 12);
        const double gx = uniform(random, -0.1, 0.1), gz = uniform(random, -0.1, 0.1);
        for (Corner& c : corners) c.half = 400 + gx * c.at.x() + gz * c.at.y();
        const auto made = makeProfile(corners);
        ASSERT_TRUE(made) << made.error().message;
        EXPECT_EQ(made->solid.faces.size(), corners.size() + 2);
        EXPECT_TRUE(made->splits.empty());
    }
    Corners hull;
    for (auto [x, z, h] : {std::array{0., 0., 300.},
                           {600., 0., 300.},
                           {1000., 0., 100.},
                           {1000., 400., 100.},
                           {600., 400., 300.},
                           {0., 400., 300.}})
        hull.push_back({"p", "p", {x, z}, h});
    EXPECT_EQ(splitFlank(hull, 1e-6).pieces.size(), 2U) << "one upright break";
}

TEST(Profile, cornersALittleOffAreSettled) {
    // 2 µm off one plane in 2 m: within 1e-6 of the size, so one flank, exactly flat.
    auto outline = std::vector{sidePoint("a", 0, 0, 300), sidePoint("b", 2000, 0, 300.002),
                               sidePoint("c", 2000, 600, 300), sidePoint("d", 0, 600, 300)};
    const Body body = bodyOf(projectOf({profile("h", outline)}));
    EXPECT_EQ(body.skin.faces.size(), 6U);
    EXPECT_LT(worstOffPlane(body.skin), 1e-9);
    outline[1].half_width = "301 mm";
    const Body split = bodyOf(projectOf({profile("h", outline)}));
    EXPECT_EQ(split.skin.faces.size(), 8U);
    EXPECT_NE(face(split.skin, "h/port#1"), nullptr);
    EXPECT_NE(face(split.skin, "h/starboard#2"), nullptr);
}
