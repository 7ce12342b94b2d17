#include "core/body/closing.h"
#include "core/body/flank.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

/// The only solid of a project of one form; fails the test if there is none.
const FormSolid& only(const ResolvedForms& forms) {
    static const FormSolid none;
    EXPECT_TRUE(forms.findings.empty()) << forms.findings.front().message;
    EXPECT_EQ(forms.solids.size(), 1U);
    return forms.solids.empty() ? none : forms.solids.front();
}

Form profile(std::string name, std::vector<OutlinePoint> outline) {
    return named(std::move(name), ProfileShape{std::move(outline), {}});
}

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

// Circle geometry of reference-values 7.6: facets on R = 300 (a half circle has chord 600, sagitta 300).
TEST(Curve, sagittaTable) {
    const struct {
        int n;
        double chord, sagitta;
    } table[] = {{8, 229.610, 22.836}, {12, 155.291, 10.222}, {16, 117.054, 5.764}, {24, 78.316, 2.567}};
    for (const auto& row : table) {
        const auto points = arcPoints({-300, 0}, {300, 0}, {0, 1}, 300, row.n / 2);
        ASSERT_EQ(points.size(), std::size_t(row.n / 2 - 1));
        EXPECT_NEAR((points[0] - Vec2(-300, 0)).norm(), row.chord, 5e-4) << row.n;
        for (const Vec2& p : points) EXPECT_NEAR(p.norm(), 300, 1e-9);
        EXPECT_NEAR(300 - ((points[0] + Vec2(-300, 0)) / 2).norm(), row.sagitta, 5e-4);
        EXPECT_EQ(facetsFor(600, 300, row.sagitta + 1e-3), row.n / 2);
        EXPECT_EQ(facetsFor(600, 300, row.sagitta - 1e-3), row.n / 2 + 1);
    }
    // A whole circle but for a hair: facets for a sagitta of at most 1, 2, 3 mm.
    const double half = std::numbers::pi - 5e-7, chord = 600 * std::sin(half),
                 bulge = 300 * (1 - std::cos(half));
    EXPECT_EQ(facetsFor(chord, bulge, 1), 39);
    EXPECT_EQ(facetsFor(chord, bulge, 2), 28);
    EXPECT_EQ(facetsFor(chord, bulge, 3), 23);
    // R = c²/8s + s/2: chord 400, sagitta 50 -> 425.
    for (const Vec2& p : arcPoints({-200, 0}, {200, 0}, {0, 1}, 50, 7))
        EXPECT_NEAR((p - Vec2(0, 50 - 425)).norm(), 425, 1e-9);
}

TEST(Curve, bulgesOutwardWhicheverWayTheOutlineRuns) {
    for (bool turned : {false, true}) {
        ProfileShape s;
        s.outline = {sidePoint("a", 0, 0, 100), sidePoint("b", 400, 0, 100), sidePoint("c", 400, 200, 100),
                     sidePoint("d", 0, 200, 100)};
        if (turned) std::reverse(s.outline.begin(), s.outline.end());
        Curve c;
        c.from = "b";
        c.to = "c";
        c.bulge = "50 mm";
        c.facets = "4";
        s.curves = {c};
        const auto forms = resolvedAt(projectOf({named("f", s)}));
        const Polyhedron& solid = only(forms).solid;
        EXPECT_NEAR(bounds(solid).max.x(), 450, 1e-9);
        EXPECT_EQ(solid.faces.size(), 3U + 4U + 2U);
        const std::string side = turned ? "c" : "b";
        for (int i = 1; i <= 4; ++i)
            EXPECT_TRUE(std::any_of(solid.faces.begin(), solid.faces.end(), [&](const PolyFace& f) {
                return f.name == side + "~" + std::to_string(i);
            })) << i;
        // Area of the polygon inscribed in the circle segment of R = 200²/8/50 + 50/2 = 125.
        const double angle = 4 * std::atan(2 * 50 / 200.0);
        const double segment = 4 * 125 * 125 / 2.0 * std::sin(angle / 4) - 125 * 125 / 2.0 * std::sin(angle);
        EXPECT_NEAR(volume(solid), 200 * (400 * 200 + segment), 1e-6);
    }
}

TEST(Curve, coneOfFacetsApproachesTheTrueAreaFromBelow) {
    // Cone frustum R 200, r 100, h 300: lateral area π (R + r) s = 298,037.6 mm² (reference-values 7.5).
    double last = 0;
    for (int facets : {2, 4, 8, 16}) {
        TaperShape s;
        const double h = std::sqrt(0.5);
        for (auto [n, x, y] : {std::tuple{"a", h, -h}, {"b", h, h}, {"c", -h, h}, {"d", -h, -h}}) {
            s.base.push_back(planPoint(n, 200 * x, 200 * y));
            s.top.push_back(planPoint(n, 100 * x, 100 * y));
        }
        s.base_z = "0";
        s.top_z = "300 mm";
        for (auto [from, to] : {std::pair{"a", "b"}, {"b", "c"}, {"c", "d"}, {"d", "a"}}) {
            Curve c;
            c.from = from;
            c.to = to;
            c.bulge = mm(200 * (1 - h));
            c.facets = std::to_string(facets);
            s.curves.push_back(c);
        }
        const Body body = bodyOf(projectOf({named("cone", s)}));
        ASSERT_EQ(body.skin.faces.size(), std::size_t(4 * facets + 2));
        const double side = body.area - areaOf(body.skin, "cone/base") - areaOf(body.skin, "cone/top");
        EXPECT_GT(side, last);
        EXPECT_LT(side, 298037.6);
        last = side;
    }
    EXPECT_NEAR(last, 298037.6, 298037.6 * 1e-3);
}

TEST(Facet, warpedFaceIsSplit) {
    FacetShape s;
    s.corners = {corner("a", {0, 0, 0}),      corner("b", {100, 0, 0}), corner("c", {100, 100, 0}),
                 corner("d", {0, 100, 0}),    corner("e", {0, 0, 50}),  corner("f", {100, 0, 60}),
                 corner("g", {100, 100, 50}), corner("h", {0, 100, 60})};
    const auto f = [](const char* name, std::vector<std::string> corners) {
        return FacetFace{name, std::move(corners), {}};
    };
    // One face is given inside out: faces are turned outward together.
    s.faces = {f("bottom", {"a", "b", "c", "d"}),    f("top", {"e", "f", "g", "h"}),
               f("front", {"b", "c", "g", "f"}),     f("back", {"a", "e", "h", "d"}),
               f("starboard", {"a", "b", "f", "e"}), f("port", {"c", "d", "h", "g"})};
    const auto forms = resolvedAt(projectOf({named("x", s)}));
    ASSERT_EQ(forms.solids.size(), 1U) << forms.findings.front().message;
    EXPECT_EQ(forms.solids[0].solid.faces.size(), 7U);
    ASSERT_NE(find(forms.findings, "side-split"), nullptr);
    // Split along the high diagonal f-h the roof is a ridge: 100² × (50 + 2/3 × 10).
    EXPECT_NEAR(volume(forms.solids[0].solid), 10000 * (50 + 20.0 / 3), 1e-6);
}

TEST(Plate, mirroredPlateFacesOutward) {
    Form form = named("rail", PlateShape{{planPoint("a", 0, -10), planPoint("b", 500, -10),
                                          planPoint("c", 400, 10), planPoint("d", 0, 10)},
                                         {}});
    form.mirror = true;
    form.at.y = "200 mm";
    form.at.z = "300 mm";
    form.at.roll = "-90 deg";
    const auto forms = resolvedAt(projectOf({form}));
    ASSERT_EQ(forms.plates.size(), 2U);
    const FreePlate &port = forms.plates[0], &starboard = forms.plates[1];
    EXPECT_EQ(port.name, "rail port/plate");
    EXPECT_EQ(starboard.form, "rail starboard");
    EXPECT_NEAR((port.frame.axes.col(2) - Vec3::UnitY()).norm(), 0, 1e-15);
    EXPECT_NEAR((starboard.frame.axes.col(2) + Vec3::UnitY()).norm(), 0, 1e-15);
    for (const FreePlate& p : forms.plates) {
        EXPECT_NEAR(p.frame.axes.determinant(), 1, 1e-12);
        EXPECT_GT(signedArea(p.outline.outer), 0);
        EXPECT_DOUBLE_EQ(std::abs(signedArea(p.outline.outer)), 20 * 450);
    }
    // Every corner of one has its mirror image among the corners of the other.
    for (const Vec2& p : port.outline.outer) {
        Vec3 image = port.frame.toBody(p);
        image.y() = -image.y();
        EXPECT_TRUE(
            std::any_of(starboard.outline.outer.begin(), starboard.outline.outer.end(),
                        [&](const Vec2& q) { return (starboard.frame.toBody(q) - image).norm() < 1e-9; }));
    }
}

TEST(Round, sizeAndPlace) {
    RoundShape s;
    s.diameter = "200 mm";
    s.top_diameter = "100 mm";
    s.length = "300 mm";
    s.gap = "2 mm";
    s.wall = "3 mm";
    Form form = named("drum", s);
    form.at.pitch = "90 deg";
    form.at.y = "50 mm";
    form.mirror = true;
    const auto forms = resolvedAt(projectOf({form}), 0.5);
    ASSERT_EQ(forms.rounds.size(), 2U);
    EXPECT_EQ(forms.rounds[0].name, "drum port");
    EXPECT_NEAR((forms.rounds[0].top - Vec3(150, 25, 0)).norm(), 0, 1e-12);
    EXPECT_NEAR((forms.rounds[1].base - Vec3(0, -25, 0)).norm(), 0, 1e-12);
    EXPECT_DOUBLE_EQ(forms.rounds[0].radius, 50);
    EXPECT_DOUBLE_EQ(forms.rounds[0].topRadius, 25);
    EXPECT_DOUBLE_EQ(forms.rounds[0].gap, 2) << "build size";
    EXPECT_DOUBLE_EQ(forms.rounds[0].wall, 3) << "build size";
}

TEST(Form, placedThenMirrored) {
    Form form = boxForm("pod", {0, 0, 0}, {100, 40, 30});
    form.mirror = true;
    form.at.y = "200 mm";
    form.at.yaw = "30 deg";
    const auto forms = resolvedAt(projectOf({form}));
    ASSERT_EQ(forms.solids.size(), 2U);
    EXPECT_EQ(forms.solids[0].form, "pod port");
    EXPECT_EQ(forms.solids[1].form, "pod starboard");
    EXPECT_NEAR(volume(forms.solids[0].solid), volume(forms.solids[1].solid), 1e-9);
    const Box3 a = bounds(forms.solids[0].solid), b = bounds(forms.solids[1].solid);
    EXPECT_NEAR(a.min.y(), -b.max.y(), 1e-12);
    EXPECT_NEAR(a.max.y(), -b.min.y(), 1e-12);
    for (const FormSolid& s : forms.solids) EXPECT_TRUE(checkClosed(s.solid, 1e-9));
    // Roll, then pitch, then yaw: the box's x axis ends at (cos 30°, sin 30°).
    EXPECT_NEAR(a.max.x(), 100 * std::cos(std::numbers::pi / 6), 1e-9);
}

TEST(Form, offFormsAreSkippedAndBuildValuesNoticed) {
    Project p = projectOf({boxForm("a", {0, 0, 0}, {10, 10, 10}), boxForm("b", {0, 0, 0}, {10, 10, 10})});
    p.forms[0].off = true;
    auto& shape = std::get<TaperShape>(p.forms[1].shape);
    EXPECT_TRUE(only(resolvedAt(p, 0.5)).scales);
    shape.top_z = "10 mm + build(3 mm)";
    const auto forms = resolvedAt(p, 0.5);
    EXPECT_FALSE(only(forms).scales);
    EXPECT_DOUBLE_EQ(bounds(only(forms).solid).max.z(), 8);
    EXPECT_DOUBLE_EQ(forms.scale, 0.5);
}

// A refusal leaves the form out, says where, and keeps the other forms.
TEST(Form, refusals) {
    const auto taper = [](auto&& change) {
        Form f = boxForm("bad", {0, 0, 0}, {100, 100, 100});
        change(std::get<TaperShape>(f.shape));
        return f;
    };
    const auto hull = [](auto&& change) {
        Form f = profile("bad", {sidePoint("a", 0, 0, 50), sidePoint("b", 300, 0, 50),
                                 sidePoint("c", 300, 200, 50), sidePoint("d", 0, 200, 50)});
        change(std::get<ProfileShape>(f.shape));
        return f;
    };
    const auto facet = [](auto&& change) {
        FacetShape s;
        s.corners = {corner("a", {0, 0, 0}), corner("b", {100, 0, 0}), corner("c", {0, 100, 0}),
                     corner("d", {0, 0, 100})};
        s.faces = {{"1", {"a", "c", "b"}, {}},
                   {"2", {"a", "b", "d"}, {}},
                   {"3", {"b", "c", "d"}, {}},
                   {"4", {"c", "a", "d"}, {}}};
        change(s);
        return named("bad", s);
    };
    struct Case {
        const char* code;
        const char* place;
        Form form;
    };
    const std::vector<Case> cases{
        {"outline-crosses", "/forms/0/base/0", taper([](TaperShape& s) { std::swap(s.base[2], s.base[3]); })},
        {"outline-crosses", "/forms/0/outline/0",
         hull([](ProfileShape& s) { std::swap(s.outline[2], s.outline[3]); })},
        {"outline-point-twice", "/forms/0/outline/1", hull([](ProfileShape& s) { s.outline[2].z = "0"; })},
        {"outline-short", "/forms/0/outline/0", hull([](ProfileShape& s) { s.outline.resize(2); })},
        {"outline-short", "/forms/0/outline", hull([](ProfileShape& s) { s.outline.clear(); })},
        {"outline-spike", "/forms/0/outline/1",
         hull([](ProfileShape& s) { s.outline.insert(s.outline.begin() + 2, sidePoint("e", 100, 0, 50)); })},
        {"form-flat", "/forms/0/outline", hull([](ProfileShape& s) {
             for (auto& p : s.outline) p.half_width = "";
         })},
        {"half-width-negative", "/forms/0/outline/2/half_width",
         hull([](ProfileShape& s) { s.outline[2].half_width = "-1 mm"; })},
        {"form-flat", "/forms/0/top_z", taper([](TaperShape& s) { s.top_z = s.base_z; })},
        {"taper-corners", "/forms/0/top", taper([](TaperShape& s) { s.top.pop_back(); })},
        {"form-too-big", "/forms/0", taper([](TaperShape& s) { s.top_z = "90000 m"; })},
        {"form-crosses", "/forms/0",
         taper([](TaperShape& s) { std::rotate(s.top.begin(), s.top.begin() + 2, s.top.end()); })},
        {"curve-ends", "/forms/0/curves/0", hull([](ProfileShape& s) {
             s.curves = {Curve{"a", "c", "5 mm", "3", "", {}}};
         })},
        {"curve-facets", "/forms/0/curves/0/facets", hull([](ProfileShape& s) {
             s.curves = {Curve{"a", "b", "5 mm", "2.5", "", {}}};
         })},
        {"curve-tolerance", "/forms/0/curves/0", hull([](ProfileShape& s) {
             s.curves = {Curve{"a", "b", "5 mm", "", "", {}}};
         })},
        {"outline-crosses", "/forms/0/curves", hull([](ProfileShape& s) {
             s.curves = {Curve{"a", "b", "-250 mm", "9", "", {}}};
         })},
        {"unknown-name", "/forms/0/outline/1/x", hull([](ProfileShape& s) { s.outline[1].x = "beam / 2"; })},
        {"unit-mismatch", "/forms/0/outline/1/x", hull([](ProfileShape& s) { s.outline[1].x = "3 deg"; })},
        {"facet-corner", "/forms/0/faces/1", facet([](FacetShape& s) { s.faces[1].corners[0] = "zz"; })},
        {"form-open", "/forms/0", facet([](FacetShape& s) {
             s.faces.push_back({"5", {"a", "b", "c"}, {}});
             s.faces.erase(s.faces.begin());
             s.corners[0].x = "1 mm";
             s.faces[0].corners = {"b", "a", "c"};
         })},
        {"form-flat", "/forms/0", facet([](FacetShape& s) { s.corners[3].z = "0"; })},
    };
    for (const Case& c : cases) {
        const auto forms = resolvedAt(projectOf({c.form, boxForm("good", {0, 0, 0}, {10, 10, 10})}));
        ASSERT_FALSE(forms.findings.empty()) << c.code;
        const Finding* f = find(forms.findings, c.code);
        ASSERT_NE(f, nullptr) << c.code << " expected, got " << forms.findings[0].code << ": "
                              << forms.findings[0].message;
        EXPECT_EQ(f->severity, Severity::stop) << c.code;
        ASSERT_EQ(f->about.size(), 2U);
        EXPECT_EQ(f->about[0], "form:bad");
        EXPECT_EQ(f->about[1], std::string("document:") + c.place) << c.code;
        EXPECT_FALSE(f->remedy.empty()) << c.code;
        ASSERT_EQ(forms.solids.size(), 1U) << c.code;
        EXPECT_EQ(forms.solids[0].form, "good");
    }
}

TEST(Form, pinchedWaistIsRefused) {
    // Half-width 0 at two corners across the outline: both halves meet along a line.
    const auto forms = resolvedAt(projectOf({profile(
        "p", {sidePoint("a", 0, 0, 50), sidePoint("b", 100, 0, 0), sidePoint("c", 200, 0, 50),
              sidePoint("d", 200, 100, 50), sidePoint("e", 100, 100, 0), sidePoint("f", 0, 100, 50)})}));
    EXPECT_TRUE(forms.solids.empty());
    ASSERT_FALSE(forms.findings.empty());
    EXPECT_EQ(forms.findings[0].code, "form-pinched");
}
