// Flats of the curves of drawings: as few as the tolerance asks for.
#include "core/picture/svg_form.h"
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

SvgFile drawingOf(const std::string& body) {
    const auto read = readSvg("<svg xmlns='http://www.w3.org/2000/svg' width='200mm' height='200mm' "
                              "viewBox='0 0 200 200'>" +
                              body + "</svg>");
    EXPECT_TRUE(read) << read.error().message;
    return read.value_or(SvgFile{});
}
OutlineDraft draftedOf(const std::string& body) {
    const auto made = draftOutline(drawingOf(body).shapes.at(0).paths.at(0), {});
    EXPECT_TRUE(made) << made.error().message;
    return made.value_or(OutlineDraft{});
}

/// A circle of four cubics round the origin, with handles of 4 (√2 − 1) / 3 of the radius.
std::string fourCubics(double radius) {
    const double k = radius * 4 * (std::sqrt(2.0) - 1) / 3;
    const std::array<Vec2, 4> at{Vec2(radius, 0), Vec2(0, radius), Vec2(-radius, 0), Vec2(0, -radius)};
    std::string d = "M" + std::to_string(radius) + " 0";
    for (std::size_t i = 0; i < 4; ++i) {
        const Vec2 a = at[i] + at[(i + 1) % 4] * (k / radius), b = at[(i + 1) % 4] + at[i] * (k / radius);
        d += "C";
        for (const Vec2& p : {a, b, at[(i + 1) % 4]})
            d += std::to_string(p.x()) + " " + std::to_string(p.y()) + " ";
    }
    return "<path d='" + d + "Z'/>";
}

TEST(SvgFlats, OfACircleOfCubicsAreAsManyAsTheClosedFormSays) {
    const double radius = 500;
    const OutlineDraft circle = draftedOf(fourCubics(radius));
    ASSERT_EQ(circle.edges.size(), 4u);
    for (const OutlineEdge& e : circle.edges) // the published error of such a quarter: 2.7e-4 of the radius
        EXPECT_NEAR(e.off, 2.725e-4 * radius, 0.02e-4 * radius);
    for (const double tolerance : {0.4, 1.0, 5.0, 20.0, 60.0}) {
        // Sagitta of a chord over the angle a: r (1 − cos(a / 2)).
        const int each = static_cast<int>(
            std::ceil(std::numbers::pi / 2 / (2 * std::acos(1 - tolerance / radius)) - 1e-9));
        const OutlineFlats flats = flatsOf(circle, tolerance);
        EXPECT_EQ(flats.count, 4 * each) << tolerance;
        EXPECT_NEAR(flats.deviation,
                    radius * (1 - std::cos(std::numbers::pi / 4 / each)) + circle.edges[0].off, 1e-6);
    }
}

TEST(SvgFlats, OfAFreeCurveFollowTheTolerance) {
    // A parabola y = x² / (2 p) over [−w, w]: the fewest chords within e tend to ∫ √κ ds / √(8 e), McClure
    // and Vitale, Polygonal approximation of plane convex bodies, 1975 (from memory).
    const double p = 300, w = 900;
    double sum = 0;
    const int steps = 10000;
    for (int i = 0; i < steps; ++i) {
        const double x = -w + 2 * w * (i + 0.5) / steps;
        sum += std::pow(1 + x * x / (p * p), -0.25) / std::sqrt(p) * 2 * w / steps;
    }
    const auto svg = drawingOf("<path d='M-900 1350Q0 -1350 900 1350z'/>");
    int before = 1000;
    for (const double e : {0.5, 2.0, 5.0, 20.0, 60.0}) {
        const auto made = draftOutline(svg.shapes[0].paths[0], {1, 1, 0.5, false, e});
        ASSERT_TRUE(made);
        const int flats = static_cast<int>(made->points.size()) - 1; // the straight side is the last
        EXPECT_NEAR(flats, std::ceil(sum / std::sqrt(8 * e)), 1) << e;
        EXPECT_LT(flats, before);
        EXPECT_LE(made->deviation, e);
        EXPECT_NEAR(flatsOf(*made, e).deviation, made->deviation, 1e-12);
        before = flats;
        // One piece fewer, placed as well as can be, does not do.
        const auto spare = draftOutline(svg.shapes[0].paths[0], {1, 1, 0.5, false, made->deviation * 0.98});
        EXPECT_GT(spare->points.size(), made->points.size()) << e;
    }
    // However coarse: three corners.
    EXPECT_EQ(
        draftOutline(drawingOf("<path d='M0 0C30 40 70 40 100 0C70 -40 30 -40 0 0z'/>").shapes[0].paths[0],
                     {1, 1, 0.5, true, 500})
            ->points.size(),
        4u);
    // What is of the build keeps its tolerance at every scale.
    OutlineImport how;
    how.space = Space::build;
    EXPECT_EQ(outlineTexts(draftedOf(fourCubics(90)), Unit::mm, how).curves.at(0).tolerance, "build(5 mm)");
}

} // namespace
} // namespace slab
