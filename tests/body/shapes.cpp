#include "core/body/outline.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

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
