#include "core/picture/svg_outline.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

std::vector<SvgSubpath> path(const std::string& d) {
    const auto read = readSvgPath(d);
    EXPECT_TRUE(read) << d << ": " << read.error().message << " " << read.error().where;
    return read ? *read : std::vector<SvgSubpath>{};
}
/// A path's points, ends of curves included.
std::vector<Vec2> points(const SvgSubpath& p) {
    std::vector<Vec2> all{p.start};
    for (const SvgSegment& s : p.segments) all.push_back(s.to);
    return all;
}
void expectPoints(const std::vector<Vec2>& found, const std::vector<Vec2>& wanted, const std::string& what) {
    ASSERT_EQ(found.size(), wanted.size()) << what;
    for (std::size_t i = 0; i < found.size(); ++i)
        EXPECT_LT((found[i] - wanted[i]).norm(), 1e-9)
            << what << ", point " << i << ": " << found[i].transpose();
}

// W3C SVG 1.1, 8.1 (triangle01) and the notes to the grammar in 8.3.9; SVG 2, 9.3.9.
TEST(SvgPath, ReadsTheLinesOfTheSpecification) {
    const auto triangle = path("M 100 100 L 300 100 L 200 300 z");
    ASSERT_EQ(triangle.size(), 1u);
    EXPECT_TRUE(triangle[0].closed);
    expectPoints(points(triangle[0]), {{100, 100}, {300, 100}, {200, 300}}, "triangle01");
    // "M 100 100 L 200 200" and "M100 100L200 200"; "M 100 200 L 200 100 -100 -200" and "M 100 200 L 200 100
    // L -100 -200"
    expectPoints(points(path("M100 100L200 200")[0]), {{100, 100}, {200, 200}},
                 "8.3.1: superfluous blanks left out");
    expectPoints(points(path("M 100 200 L 200 100 -100 -200")[0]), {{100, 200}, {200, 100}, {-100, -200}},
                 "8.3.1: a repeated letter left out");
    expectPoints(points(path("M100-200")[0]), {{100, -200}}, "8.3.9: \"M 100-200\"");
    expectPoints(points(path("M 0.6.5")[0]), {{0.6, 0.5}}, "8.3.9: \"M 0.6.5\"");
    expectPoints(points(path("m10 10 30 0 0 30")[0]), {{10, 10}, {40, 10}, {40, 40}},
                 "m: lines after it are relative");
    expectPoints(points(path("M1e1,+.5e1H-3v2V-7h1")[0]), {{10, 5}, {-3, 5}, {-3, 7}, {-3, -7}, {-2, -7}},
                 "H, V");
    const auto after = path("M 10 10 h 20 v 20 z l -5 0");
    ASSERT_EQ(after.size(), 2u) << "8.3.3: after z the next subpath begins where this one began";
    expectPoints(points(after[1]), {{10, 10}, {5, 10}}, "8.3.3");
}

TEST(SvgPath, ReadsTheCurvesOfTheSpecification) {
    // cubic01 of 8.3.6: the S mirrors the control point before it.
    const auto cubic = path("M100,200 C100,100 250,100 250,200 S400,300 400,200");
    ASSERT_EQ(cubic[0].segments.size(), 2u);
    EXPECT_EQ(cubic[0].segments[1].c1, Vec2(250, 300));
    EXPECT_EQ(cubic[0].segments[1].c2, Vec2(400, 300));
    // quad01 of 8.3.7; as cubics, control points lie at two thirds to (400, 50) and to (800, 550).
    const auto quad = path("M200,300 Q400,50 600,300 T1000,300");
    ASSERT_EQ(quad[0].segments.size(), 2u);
    EXPECT_LT((quad[0].segments[0].c1 - Vec2(200 + 400.0 / 3, 300 - 500.0 / 3)).norm(), 1e-12);
    EXPECT_LT((quad[0].segments[1].c1 - Vec2(600 + 400.0 / 3, 300 + 500.0 / 3)).norm(), 1e-12);
    EXPECT_LT((quad[0].segments[1].c2 - Vec2(1000 - 400.0 / 3, 300 + 500.0 / 3)).norm(), 1e-12);
    // Without a curve before them S and T start straight on (8.3.6, 8.3.7).
    EXPECT_EQ(path("M1 2S3 4 5 6")[0].segments[0].c1, Vec2(1, 2));
    EXPECT_EQ(path("M0 0 C1 1 2 2 3 0 T 6 0")[0].segments[1].c1, Vec2(3, 0));
}

// arcs01 of 8.3.8: two pieces of a pie about (300, 200) and (275, 175), radius 150, and a ragged line of half
// ellipses.
TEST(SvgPath, ReadsTheArcsOfTheSpecification) {
    const auto pie = path("M300,200 h-150 a150,150 0 1,0 150,-150 z")[0];
    const SvgArc& large = pie.segments[1].arc;
    EXPECT_LT((large.centre - Vec2(300, 200)).norm(), 1e-9);
    EXPECT_NEAR(large.sweep, -1.5 * std::numbers::pi, 1e-12);
    EXPECT_NEAR(large.a.norm(), 150, 1e-9);
    const SvgArc small = path("M275,175 v-150 a150,150 0 0,0 -150,150 z")[0].segments[1].arc;
    EXPECT_LT((small.centre - Vec2(275, 175)).norm(), 1e-9);
    EXPECT_NEAR(small.sweep, -std::numbers::pi / 2, 1e-12);
    const auto ragged = path("M600,350 l 50,-25 a25,25 -30 0,1 50,-25 l 50,-25 a25,50 -30 0,1 50,-25 "
                             "l 50,-25 a25,75 -30 0,1 50,-25 l 50,-25 a25,100 -30 0,1 50,-25 l 50,-25")[0];
    expectPoints(points(ragged),
                 {{600, 350},
                  {650, 325},
                  {700, 300},
                  {750, 275},
                  {800, 250},
                  {850, 225},
                  {900, 200},
                  {950, 175},
                  {1000, 150},
                  {1050, 125}},
                 "arcs01");
    for (std::size_t i = 1; i < ragged.segments.size(); i += 2) {
        const SvgArc& a = ragged.segments[i].arc;
        EXPECT_GT(a.sweep, 0);
        EXPECT_NEAR(a.a.norm() / a.b.norm(), 1.0 / static_cast<double>((i + 1) / 2), 1e-9);
    }
    // The four arcs of 8.3.8, "M 125,75 a100,50 0 ?,? 100,50": quarter ellipses about two centres, or their
    // rests.
    for (bool big : {false, true})
        for (bool clockwise : {false, true}) {
            const std::string d = std::string("M 125,75 a100,50 0 ") + (big ? "1" : "0") +
                                  (clockwise ? ",1" : ",0") + " 100,50";
            const SvgArc a = path(d)[0].segments[0].arc;
            EXPECT_NEAR(a.sweep, (clockwise ? 1 : -1) * (big ? 1.5 : 0.5) * std::numbers::pi, 1e-9) << d;
            EXPECT_LT((a.centre - (big == clockwise ? Vec2(225, 75) : Vec2(125, 125))).norm(), 1e-9) << d;
        }
    // Flags may stand without separators (SVG 2, 9.3.9).
    EXPECT_EQ(path("M0 0a25 25 0 0150 50")[0].segments[0].to, Vec2(50, 50));
    EXPECT_EQ(path("M0 0a25,25,0,1,1.5.5")[0].segments[0].to, Vec2(0.5, 0.5));
    // F.6.2: equal ends leave the arc out, a radius of nothing makes it a line, a negative one counts without
    // sign.
    EXPECT_TRUE(path("M3 4A9 9 0 0 1 3 4")[0].segments.empty());
    EXPECT_EQ(path("M0 0A0 9 0 0 1 3 4")[0].segments[0].kind, SvgSegment::Kind::line);
    EXPECT_NEAR(path("M0 0A-5 -5 0 0 1 10 0")[0].segments[0].arc.a.norm(), 5, 1e-12);
}

// F.6.5 and F.6.6: from the centre's parameters to the ends and back.
TEST(SvgPath, ArcsComeBackFromTheirEnds) {
    auto random = seeded();
    for (int round = 0; round < 5000; ++round) {
        const double rx = uniform(random, 1, 100), ry = uniform(random, 1, 100),
                     turn = uniform(random, -std::numbers::pi, std::numbers::pi);
        const double start = uniform(random, -std::numbers::pi, std::numbers::pi),
                     sweep = uniform(random, 0.05, 2 * std::numbers::pi - 0.05) * (round % 2 == 0 ? 1 : -1);
        const Vec2 centre(uniform(random, -200, 200), uniform(random, -200, 200));
        const Eigen::Rotation2Dd r(turn);
        const auto at = [&](double t) -> Vec2 {
            return centre + r * Vec2(rx * std::cos(t), ry * std::sin(t));
        };
        const Vec2 from = at(start), to = at(start + sweep);
        const SvgArc arc =
            arcBetween(from, to, {rx, ry, turn, std::abs(sweep) > std::numbers::pi, sweep > 0});
        EXPECT_LT((arc.centre - centre).norm(), 1e-7) << "round " << round;
        EXPECT_NEAR(arc.sweep, sweep, 1e-8);
        EXPECT_LT((arc.at(arc.start) - from).norm(), 1e-7);
        EXPECT_LT((arc.at(arc.start + arc.sweep) - to).norm(), 1e-7);
        // Radii too small are enlarged until they just reach (F.6.6.3): the centre is the middle then.
        const SvgArc reached = arcBetween(from, to, {rx / 1e3, ry / 1e3, turn, false, true});
        EXPECT_LT((reached.centre - (from + to) / 2).norm(), 1e-9 * 300);
        EXPECT_NEAR(reached.a.norm() / reached.b.norm(), rx / ry, 1e-9 * rx / ry);
    }
}

TEST(SvgPath, RefusesWhatItCannotRead) {
    for (const char* d : {"L 10 10", "M 10", "M 10 10 L 20", "M 0 0 Q 1 1", "M 0 0 A 5 5 0 2 1 10 10",
                          "M 0 0 X 4", "M 0 0 L 1e999 0", "M 0 0 L nan 0", "M 0 0 , 5 5 #"}) {
        const auto read = readSvgPath(d);
        ASSERT_FALSE(read) << d;
        EXPECT_EQ(read.error().code, "svg-path");
        EXPECT_FALSE(read.error().where.empty());
        EXPECT_FALSE(read.error().remedy.empty());
    }
    EXPECT_TRUE(path("").empty());
}

TEST(SvgTransform, IsReadAsInTheSpecification) {
    // SVG 1.1, 7.4 and 7.6: the list applies from the right; rotate about a point; skews.
    const Mat3 m = *readTransform("translate(50,90),rotate(-45) translate(130,160)");
    const double c = std::cos(-std::numbers::pi / 4), s = std::sin(-std::numbers::pi / 4);
    const Vec2 p = (m * Vec3(0, 0, 1)).head<2>();
    // 7.5 gives this list's matrix as [.707 -.707 255.03; .707 .707 111.21] with the turn's sign as printed
    // there.
    EXPECT_NEAR(p.x(), 50 + c * 130 - s * 160, 1e-12);
    EXPECT_NEAR(p.y(), 90 + s * 130 + c * 160, 1e-12);
    EXPECT_NEAR(p.x(), 255.03, 0.04); // made there with 0.707
    EXPECT_NEAR(p.y(), 111.21, 0.04);
    EXPECT_LT(((*readTransform("rotate(90 10 20)") * Vec3(11, 20, 1)).head<2>() - Vec2(10, 21)).norm(),
              1e-12);
    EXPECT_LT(((*readTransform("matrix(1 2 3 4 5 6)") * Vec3(1, 1, 1)).head<2>() - Vec2(9, 12)).norm(),
              1e-12);
    EXPECT_LT(((*readTransform("skewX(45)") * Vec3(0, 2, 1)).head<2>() - Vec2(2, 2)).norm(), 1e-12);
    EXPECT_LT(((*readTransform(" scale(2) ") * Vec3(1, 3, 1)).head<2>() - Vec2(2, 6)).norm(), 1e-12);
    EXPECT_EQ(*readTransform(""), Mat3(Mat3::Identity()));
    for (const char* t : {"turn(3)", "rotate(3", "scale()", "matrix(1 2 3)", "translate 3"})
        EXPECT_EQ(readTransform(t).error().code, "svg-transform") << t;
}

} // namespace
} // namespace slab
