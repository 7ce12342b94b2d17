// Outlines of drawings: sizes, shapes, curves, and what becomes of them in a document.
#include "core/body/curve_path.h"
#include "core/document/file.h"
#include "core/picture/svg_form.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

SvgFile file(const std::string& body,
             const std::string& attributes = "width='200mm' height='100mm' viewBox='0 0 200 100'") {
    const auto read = readSvg("<?xml version='1.0'?><svg xmlns='http://www.w3.org/2000/svg' "
                              "xmlns:xlink='http://www.w3.org/1999/xlink' " +
                              attributes + ">" + body + "</svg>");
    EXPECT_TRUE(read) << read.error().message;
    return read ? *read : SvgFile{};
}
OutlineDraft draft(const SvgSubpath& path, double tolerance = 0.5, double unit = 1) {
    const auto made = draftOutline(path, {unit, unit, tolerance});
    EXPECT_TRUE(made) << made.error().message;
    return made ? *made : OutlineDraft{};
}
OutlineDraft draftOf(const std::string& body, double tolerance = 0.5) {
    const SvgFile f = file(body);
    EXPECT_EQ(f.shapes.size(), 1u) << body;
    return f.shapes.empty() ? OutlineDraft{} : draft(f.shapes[0].paths[0], tolerance);
}
/// Area of an outline with its curved edges, by the closed forms of segments of circles and ellipses.
double areaOf(const OutlineDraft& d) {
    double area = signedArea(Ring(d.points));
    for (std::size_t i = 0; i < d.points.size(); ++i) {
        const Vec2 chord = d.points[(i + 1) % d.points.size()] - d.points[i];
        const OutlineEdge& e = d.edges[i];
        if (e.kind == OutlineEdge::Kind::arc) {
            const double s = std::abs(e.bulge), c = chord.norm(), r = c * c / (8 * s) + s / 2,
                         angle = 4 * std::atan(2 * s / c);
            area -= std::copysign(r * r / 2 * (angle - std::sin(angle)), e.bulge); // bulging left takes away
        } else if (e.kind == OutlineEdge::Kind::ellipse) {
            // A circle's segment over its triangle of tangents keeps its share of the area under affine maps.
            const double triangle = cross2(chord, e.meet - d.points[i]) / 2, half = e.sweep / 2;
            const double circle = std::sin(half) * std::sin(half) * std::tan(half); // of radius 1
            area -= triangle * ((e.sweep - std::sin(e.sweep)) / 2) / circle;
        }
    }
    return area;
}

TEST(SvgSizes, AreReadInEveryUnit) {
    // CSS Values 3, 6.2: 1 in = 2.54 cm = 25.4 mm = 101.6 Q = 6 pc = 72 pt = 96 px.
    for (const char* w : {"1in", "2.54cm", "25.4mm", "101.6Q", "6pc", "72pt"}) {
        const auto size =
            readSvgSize("<svg width='" + std::string(w) + "' height='" + w + "' viewBox='0 0 10 10'/>");
        ASSERT_TRUE(size);
        EXPECT_TRUE(size->real) << w;
        EXPECT_NEAR(size->width, 25.4, 1e-12) << w;
        EXPECT_NEAR(size->pixelWidth, 96, 1e-12) << w;
        EXPECT_NEAR(size->unitX, 2.54, 1e-12) << w;
    }
    const auto px = readSvgSize("<svg width='300' height='150px'/>");
    EXPECT_FALSE(px->real);
    EXPECT_EQ(px->pixelWidth, 300);
    EXPECT_EQ(px->pixelHeight, 150);
    EXPECT_NEAR(px->unitX, 25.4 / 96, 1e-15);
    const auto percent = readSvgSize("<svg width='100%' height='100%' viewBox='0 0 640 480'/>");
    EXPECT_FALSE(percent->real);
    EXPECT_EQ(percent->pixelWidth, 640);
    EXPECT_EQ(readSvgSize("<svg/>")->pixelWidth, 300); // CSS 2.1, 10.3.2
    EXPECT_EQ(readSvgSize("<svg width='400' viewBox='0 0 8 2'/>")->pixelHeight, 100);
    // The default aspect keeps shapes ("xMidYMid meet"), "none" does not (SVG 1.1, 7.8).
    const auto meet = readSvgSize("<svg width='100mm' height='100mm' viewBox='0 0 50 100'/>");
    EXPECT_NEAR(meet->unitX, 1, 1e-12);
    const auto none =
        readSvgSize("<svg width='100mm' height='100mm' viewBox='0 0 50 100' preserveAspectRatio='none'/>");
    EXPECT_NEAR(none->unitX, 2, 1e-12);
    EXPECT_NEAR(none->unitY, 1, 1e-12);
}

TEST(SvgSizes, AskTheUnitQuestion) {
    const SvgFile real = file("<rect x='10' y='10' width='120' height='60'/>");
    const auto asWritten = unitChoices(real);
    ASSERT_EQ(asWritten.size(), 9u);
    EXPECT_EQ(asWritten[0].name, "as written: 200mm by 100mm");
    EXPECT_NEAR(asWritten[0].width, 120, 1e-9);
    const SvgFile bare = file("<rect width='120' height='60'/>", "width='200' height='100'");
    const auto guesses = unitChoices(bare);
    // mm, cm, m, in, ft, pt and pc (72 and 6 to the inch), px (96 to the inch): CSS 2.1, 4.3.2, and the foot.
    const double units[] = {1, 10, 1000, 25.4, 304.8, 25.4 / 72, 25.4 / 6, 25.4 / 96};
    ASSERT_EQ(guesses.size(), std::size(units));
    for (std::size_t i = 0; i < guesses.size(); ++i) {
        EXPECT_NEAR(guesses[i].width, 120 * units[i], 1e-9) << guesses[i].name;
        EXPECT_NEAR(guesses[i].height, 60 * units[i], 1e-9) << guesses[i].name;
    }
}

TEST(SvgShapes, HaveTheAreasOfTheirFormulas) {
    EXPECT_NEAR(std::abs(areaOf(draftOf("<rect x='3' y='4' width='120' height='60'/>"))), 7200, 1e-9);
    // SVG 1.1, 9.2: round corners take 4 − π of the radii's product away; one radius serves for both; held to
    // half.
    EXPECT_NEAR(std::abs(areaOf(draftOf("<rect width='120' height='60' rx='10' ry='6'/>"))),
                7200 - (4 - std::numbers::pi) * 60, 1e-9);
    EXPECT_NEAR(std::abs(areaOf(draftOf("<rect width='120' height='60' rx='10'/>"))),
                7200 - (4 - std::numbers::pi) * 100, 1e-9);
    EXPECT_NEAR(std::abs(areaOf(draftOf("<rect width='120' height='60' rx='90' ry='90'/>"))),
                std::numbers::pi * 60 * 30, 1e-6);
    EXPECT_NEAR(std::abs(areaOf(draftOf("<circle cx='50' cy='50' r='20'/>"))), std::numbers::pi * 400, 1e-9);
    EXPECT_NEAR(std::abs(areaOf(draftOf("<ellipse cx='50' cy='50' rx='40' ry='20'/>"))),
                std::numbers::pi * 800, 1e-9);
    EXPECT_NEAR(std::abs(areaOf(draftOf("<polygon points='0,0 30,0 30,40'/>"))), 600, 1e-12);
    EXPECT_TRUE(draftOf("<polyline points='0,0 30,0 30,40'/>").wasOpen);
    // An affine map times its determinant, whatever the curves become: here circles become turned ellipses.
    EXPECT_NEAR(std::abs(areaOf(
                    draftOf("<g transform='rotate(20) scale(3,2) skewX(30)'><circle r='10' cx='5'/></g>"))),
                6 * std::numbers::pi * 100, 1e-8);
    const OutlineDraft turned =
        draftOf("<g transform='translate(5,5) rotate(20) scale(-2)'><circle r='10'/></g>");
    for (const OutlineEdge& e : turned.edges)
        EXPECT_EQ(e.kind, OutlineEdge::Kind::arc) << "a circle stays one";
    EXPECT_NEAR(std::abs(areaOf(turned)), std::numbers::pi * 400, 1e-9);
}

TEST(SvgShapes, CurvesTurnTheRightWay) {
    auto random = seeded();
    for (int round = 0; round < 500; ++round) {
        // A polygon about a circle, every second side an arc that bulges out or in.
        const double bend = uniform(random, -0.4, 0.4);
        SvgSubpath path;
        path.closed = true;
        const int n = 3 + below(random, 5);
        double expected = 0;
        const bool backward = round % 2 == 0;
        std::vector<Vec2> corners;
        for (int i = 0; i < n; ++i) {
            const double a = (backward ? -1 : 1) * 2 * std::numbers::pi * i / n;
            corners.emplace_back(100 * std::cos(a), 100 * std::sin(a));
        }
        path.start = corners[0];
        expected = std::abs(signedArea(Ring(corners)));
        const double chord = (corners[1] - corners[0]).norm(),
                     radius = chord / 2 / std::sin(std::abs(bend) + 0.05);
        const double angle = 2 * (std::abs(bend) + 0.05);
        for (int i = 0; i < n; ++i) {
            SvgSegment s;
            const Vec2 from = corners[static_cast<std::size_t>(i)];
            s.to = corners[static_cast<std::size_t>((i + 1) % n)];
            s.kind = SvgSegment::Kind::arc;
            // Going round with y down, increasing angles (clockwise as drawn) bulge outward for a forward
            // polygon.
            s.arc = arcBetween(from, s.to, {radius, radius, 0, false, (bend > 0) != backward});
            path.segments.push_back(s);
        }
        expected += (bend > 0 ? 1 : -1) * n * radius * radius / 2 * (angle - std::sin(angle));
        const OutlineDraft d = draft(path);
        EXPECT_EQ(d.points.size(), static_cast<std::size_t>(n));
        EXPECT_NEAR(std::abs(areaOf(d)), expected, 1e-6 * expected) << "round " << round;
        const OutlineTexts texts = outlineTexts(d, Unit::mm, {});
        ASSERT_EQ(texts.curves.size(), static_cast<std::size_t>(n));
        for (const Curve& c : texts.curves) // in the document a bulge to the outside is positive
            EXPECT_EQ(*parseLength(c.bulge, Unit::mm) > 0, bend > 0) << c.bulge << " in round " << round;
    }
}

TEST(SvgShapes, CubicsKeepTheToleranceOrBecomeArcs) {
    auto random = seeded(2);
    int most = 0;
    for (int round = 0; round < 300; ++round) {
        SvgSubpath path;
        path.closed = true;
        SvgSegment s;
        s.kind = SvgSegment::Kind::cubic;
        for (Vec2* p : {&s.c1, &s.c2, &s.to})
            *p = Vec2(uniform(random, -200, 200), uniform(random, -200, 200));
        path.segments.push_back(s);
        const double tolerance = uniform(random, 0.05, 3);
        const auto made = draftOutline(path, {1, 1, tolerance, false});
        if (!made) continue; // so nearly straight that nothing but its ends is left
        EXPECT_LE(made->deviation, tolerance) << "round " << round;
        most = std::max(most, static_cast<int>(made->points.size()));
        // Every place of the curve lies within the tolerance of the outline.
        for (int i = 0; i <= 100; ++i) {
            const double t = i / 100.0, u = 1 - t;
            Vec2 q = 3 * u * u * t * s.c1 + 3 * u * t * t * s.c2 + t * t * t * s.to;
            q.y() = -q.y();
            double best = 1e9;
            for (std::size_t k = 0; k < made->points.size(); ++k) {
                const Vec2 &a = made->points[k], b = made->points[(k + 1) % made->points.size()];
                const double along = std::clamp((q - a).dot(b - a) / (b - a).squaredNorm(), 0.0, 1.0);
                best = std::min(best, (q - a - along * (b - a)).norm());
            }
            EXPECT_LE(best, tolerance * (1 + 1e-9));
        }
    }
    EXPECT_GT(most, 10);
    // The circle as drawing programs write it: four cubics with handles of 4 (√2 − 1) / 3 of the radius.
    const std::string k = std::to_string(50 * 4 * (std::sqrt(2.0) - 1) / 3);
    const OutlineDraft circle = draftOf("<path transform='translate(60,60)' d='M50,0 C50," + k + " " + k +
                                        ",50 0,50 C-" + k + ",50 -50," + k + " -50,0 C-50,-" + k + " -" + k +
                                        ",-50 0,-50 C" + k + ",-50 50,-" + k + " 50,0 Z'/>");
    ASSERT_EQ(circle.points.size(), 4u);
    EXPECT_EQ(circle.flattened, 0);
    for (const OutlineEdge& e : circle.edges) EXPECT_EQ(e.kind, OutlineEdge::Kind::arc);
    EXPECT_NEAR(std::abs(areaOf(circle)), std::numbers::pi * 2500, 2500 * 2e-3);
}

TEST(SvgShapes, FreeCurvesBecomeSplinesWithinTheTolerance) {
    auto random = seeded(4);
    int splines = 0, straight = 0;
    for (int round = 0; round < 200; ++round) {
        SvgSubpath path; // a blade: a free curve and two straight sides
        path.closed = true;
        SvgSegment s;
        s.kind = SvgSegment::Kind::cubic;
        s.c1 = Vec2(uniform(random, 50, 150), uniform(random, -150, 150));
        s.c2 = Vec2(uniform(random, 250, 350), uniform(random, -150, 150));
        s.to = Vec2(400, 0);
        path.segments.push_back(s);
        SvgSegment tip;
        tip.to = Vec2(200, 500);
        path.segments.push_back(tip);
        const double tolerance = uniform(random, 0.2, 3);
        const OutlineDraft d = draft(path, tolerance);
        EXPECT_LE(d.deviation, tolerance);
        splines += d.splined;
        straight += d.flattened;
        if (d.splined == 0) continue;
        ASSERT_EQ(d.edges[0].kind, OutlineEdge::Kind::spline);
        std::vector<Vec2> knots{d.points[0]};
        knots.insert(knots.end(), d.edges[0].through.begin(), d.edges[0].through.end());
        knots.push_back(d.points[1]);
        const CurvePath spline = *splinePath(knots); // as the document's curves are drawn
        for (double t = 0; t <= endOf(spline); t += 0.05) {
            const Vec2 p = pointAt(spline, t);
            double best = 1e9;
            for (int i = 0; i <= 2000; ++i) {
                const double u = i / 2000.0, v = 1 - u;
                Vec2 q = 3 * v * v * u * s.c1 + 3 * v * u * u * s.c2 + u * u * u * s.to;
                q.y() = -q.y();
                best = std::min(best, (p - q).norm());
            }
            EXPECT_LE(best, tolerance + 0.3)
                << "round " << round; // samples of the curve lie 0.3 mm apart at most
        }
    }
    std::printf("%d splines, %d curves cut straight\n", splines, straight);
    EXPECT_GT(splines, 100);
    // Two curves alone have too few corners: they come as straight pieces.
    const auto leaf = draftOf("<path d='M0 0C30 40 70 40 100 0C70 -40 30 -40 0 0z'/>", 0.05);
    EXPECT_GE(leaf.points.size(), 3u);
    OutlineImport how;
    const OutlineTexts texts =
        outlineTexts(draftOf("<path d='M0 0C40 90 50 -20 100 0L50 90z'/>", 1), Unit::mm, how);
    ASSERT_EQ(texts.curves.size(), 1u);
    EXPECT_EQ(texts.curves[0].kind, CurveKind::spline);
    EXPECT_FALSE(texts.curves[0].through.empty());
    EXPECT_FALSE(texts.curves[0].through[0].z.empty());
}

TEST(SvgFiles, FollowGroupsUsesAndNestedDrawings) {
    // SVG 1.1, 7.4: transforms of groups apply one inside the other; 5.6: use moves what it repeats; 7.9: a
    // drawing inside.
    const SvgFile f = file(
        "<defs><rect id='box' width='10' height='10'/></defs>"
        "<g transform='translate(10,20)'><g transform='scale(2)'><rect id='a' x='1' y='1' width='3' "
        "height='3'/></g></g>"
        "<use xlink:href='#box' x='30' y='40' transform='scale(2)'/>"
        "<svg x='100' y='10' width='40' height='20' viewBox='0 0 4 2'><rect id='c' x='1' y='1' width='1' "
        "height='1'/></svg>"
        "<g display='none'><rect width='5' height='5'/></g><rect style='fill: none; display: none' width='5' "
        "height='5'/>"
        "<clipPath><rect width='5' height='5'/></clipPath><text>hull</text><path id='bad' d='M 0 0 L 5'/>"
        "<line x1='0' y1='0' x2='50%' y2='10%'/>");
    ASSERT_EQ(f.shapes.size(), 4u);
    EXPECT_EQ(f.shapes[0].id, "a");
    EXPECT_LT((f.shapes[0].paths[0].start - Vec2(12, 22)).norm(), 1e-12);
    EXPECT_LT((f.shapes[1].paths[0].start - Vec2(60, 80)).norm(), 1e-12);
    EXPECT_LT((f.shapes[2].paths[0].start - Vec2(110, 20)).norm(), 1e-12);
    EXPECT_LT((f.shapes[3].paths[0].segments[0].to - Vec2(100, 10)).norm(), 1e-12);
    ASSERT_EQ(f.leftOut.size(), 2u);
    EXPECT_NE(f.leftOut[0].find("path \"bad\""), std::string::npos) << f.leftOut[0];
    EXPECT_NE(f.leftOut[1].find("text"), std::string::npos);
}

TEST(SvgFiles, OfferTheLargestOutlineFirst) {
    const auto all = outlinesOf(
        file("<path id='hull' d='M0 0h9v9h-9z M1 1h2v2h-2z'/><line x2='50' y2='3'/><circle r='20'/>"));
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0].name, "circle 3");
    EXPECT_NEAR(all[0].area, std::numbers::pi * 400, 400 * 0.01);
    EXPECT_EQ(all[1].name, "hull");
    EXPECT_NEAR(all[1].area, 81, 1e-12);
    EXPECT_EQ(all[2].name, "hull (2)");
    EXPECT_EQ(all[3].name, "line 2");
    EXPECT_EQ(all[3].area, 0);
}

TEST(SvgFiles, EndWhereDrawingsRepeatThemselves) {
    std::string groups = "<g id='g0'><rect width='1' height='1'/></g>";
    for (int i = 1; i < 30; ++i) { // 10^29 rectangles
        groups += "<g id='g" + std::to_string(i) + "'>";
        for (int k = 0; k < 10; ++k) groups += "<use href='#g" + std::to_string(i - 1) + "'/>";
        groups += "</g>";
    }
    EXPECT_LE(file(groups).shapes.size(), 100000u);
    EXPECT_TRUE(file("<g id='me'><use href='#me'/></g>").shapes.empty());
    EXPECT_EQ(readSvg("<svg><path d='M0 0'></svg>").error().code, "picture-damaged");
    EXPECT_EQ(readSvg("<html/>").error().code, "picture-format");
    EXPECT_EQ(readSvg("<svg>" + std::string(std::size_t{64} << 20U, ' ')).error().code, "too-large");
    EXPECT_EQ(draftOutline({{0, 0}, {}, true}, {1, 1, 1}).error().code, "svg-outline");
    EXPECT_EQ(draftOutline({{0, 0}, {}, true}, {1, 1, 0}).error().code, "svg-tolerance");
    SvgSubpath many;
    for (int i = 1; i < 300; ++i) {
        SvgSegment s;
        s.to = Vec2(i, i % 7);
        many.segments.push_back(s);
    }
    EXPECT_EQ(draftOutline(many, {1, 1, 1}).error().code, "svg-outline");
    // Any damage at all: an answer, never a crash.
    auto random = seeded(3);
    const std::string whole = "<svg width='3in' viewBox='0 0 9 9'><g transform='rotate(3)'><path d='M1 1a5 3 "
                              "10 1 0 3 4c1 2 3 4 5 6z'/>"
                              "<rect width='3' height='2' rx='1'/><use href='#a'/></g></svg>";
    for (int round = 0; round < 5000 / slowdown; ++round) {
        std::string text = whole;
        for (int i = 0; i < 3; ++i)
            text[static_cast<std::size_t>(below(random, static_cast<int>(text.size())))] =
                static_cast<char>(32 + below(random, 96));
        if (const auto read = readSvg(text))
            for (const SvgShape& shape : read->shapes)
                for (const SvgSubpath& path : shape.paths) (void)draftOutline(path, {1, 1, 0.1});
    }
}

TEST(OutlineImport, MakesFormsThatCanBeSavedAndRead) {
    Project p;
    p.units = "in";
    const OutlineDraft d = draftOf("<rect width='120' height='60' rx='10' ry='6'/>");
    using As = OutlineImport::As;
    for (const auto as : {As::profile, As::taper, As::plate}) {
        OutlineImport how;
        how.as = as;
        how.name = "hull/side";
        auto next = addOutline(d, how).apply(p);
        ASSERT_TRUE(next) << next.error().message;
        p = *next;
    }
    ASSERT_EQ(p.forms.size(), 3u);
    EXPECT_EQ(p.forms[0].name, "hull side");
    EXPECT_EQ(p.forms[1].name, "hull side 2");
    const auto again = readProject(writeProject(p));
    ASSERT_TRUE(again) << again.error().message << again.error().where;
    EXPECT_EQ(*again, p);
    const auto& profile = std::get<ProfileShape>(p.forms[0].shape);
    ASSERT_EQ(profile.outline.size(), 8u);
    EXPECT_EQ(profile.curves.size(), 4u);
    EXPECT_EQ(profile.curves[0].kind, CurveKind::ellipse);
    EXPECT_NEAR(*parseLength(profile.outline[0].x, Unit::in), 10, 0.0001 * 25.4);
    EXPECT_TRUE(profile.outline[0].y.empty());
}

TEST(OutlineImport, ReplacesAnOutlineAndKeepsItsNames) {
    const auto p = readProject(
        R"({"slabside": 1, "units": "mm", "forms": [{"name": "hull", "kind": "profile", "outline": [
      {"name": "stem", "side": "bow", "x": "0", "z": "0", "half_width": "3 in"}, {"name": "p1", "x": "9", "z": "0", "half_width": "4 in"},
      {"name": "p3", "x": "9", "z": "9"}, {"name": "deck", "x": "0", "z": "9"}]}, {"name": "pipe", "kind": "round", "diameter": "1"}]})");
    ASSERT_TRUE(p) << p.error().message;
    const OutlineDraft d = draftOf("<path d='M0 0 h40 a20 20 0 0 1 0 40 z'/>");
    const auto next = replaceOutline(0, d, {}).apply(*p);
    ASSERT_TRUE(next) << next.error().message;
    const auto& shape = std::get<ProfileShape>(next->forms[0].shape);
    ASSERT_EQ(shape.outline.size(), 4u);
    EXPECT_EQ(shape.outline[0].name, "stem");
    EXPECT_EQ(shape.outline[0].side, "bow");
    EXPECT_EQ(shape.outline[0].half_width, "3 in");
    EXPECT_EQ(shape.outline[1].name, "p1");
    EXPECT_EQ(shape.outline[3].name, "deck");
    ASSERT_EQ(shape.curves.size(), 2u);
    EXPECT_EQ(shape.curves[0].from, "p1");
    EXPECT_EQ(shape.curves[0].to, "p3");
    EXPECT_EQ(shape.curves[1].to, "deck");
    EXPECT_TRUE(readProject(writeProject(*next)));
    EXPECT_EQ(replaceOutline(1, d, {}).apply(*p).error().code, "wrong-type");
    EXPECT_EQ(replaceOutline(7, d, {}).apply(*p).error().code, "no-such-place");
    OutlineImport build;
    build.space = Space::build;
    const auto fixed = replaceOutline(0, d, build).apply(*p);
    EXPECT_EQ(std::get<ProfileShape>(fixed->forms[0].shape).outline[1].x, "build(40 mm)");
}

} // namespace
} // namespace slab
