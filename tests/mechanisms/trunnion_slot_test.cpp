// The slot that a trunnion's tube needs, against its analytic envelope.
#include "core/mechanisms/trunnion_slot.h"
#include "core/plates/outline.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {

namespace {

constexpr double degrees = std::numbers::pi / 180;

/// Slot in a plate square to the tube's plane, leaning back by `lean`, its outer face `away` from the pivot.
Expected<Ring> slotIn(double away, double thick, double lean, double radius, double from, double to) {
    SlotProblem p;
    p.radius = radius;
    p.from = from;
    p.to = to;
    p.thickness = thick;
    p.outer.normal = {std::cos(lean), 0, std::sin(lean)};
    p.outer.offset = away;
    Frame flat = plates::panelFrame(p.outer.normal, {});
    flat.origin = away * p.outer.normal;
    return slotOutline(p, flat);
}

/// A plate that leans and is turned, ahead of a tube.
/// @param lowest  elevations begin above it, radians
/// @param range   of them at most, radians
template <class Random>
SlotProblem skewPlate(Random& random, double lowest, double range) {
    SlotProblem p;
    p.radius = uniform(random, 15, 60);
    p.thickness = uniform(random, 3, 30);
    p.from = uniform(random, lowest, 0.1);
    p.to = p.from + uniform(random, 0, range);
    p.outer.normal = Vec3(1, uniform(random, -0.5, 0.5), uniform(random, -0.5, 0.5)).normalized();
    p.outer.offset = p.radius + p.thickness + uniform(random, 50, 500);
    return p;
}

TEST(TrunnionSlot, UprightPlateByHand) {
    // Plate 500 ahead of the pivot, 12 thick; radius 40; -10 to 30 degrees.
    const auto e = slotEdges(500, 12, 40, -10 * degrees, 30 * degrees);
    ASSERT_TRUE(e);
    EXPECT_NEAR(e->outerTop, 500 * 0.5773502692 + 40 / 0.8660254038, 1e-6); // 334.863
    EXPECT_NEAR(e->outerBottom, -500 * 0.1763269807 - 40 / 0.9848077530, 1e-6);
    EXPECT_NEAR(e->innerTop, 488 * 0.5773502692 + 40 / 0.8660254038, 1e-6);
    EXPECT_NEAR(e->innerBottom, -488 * 0.1763269807 - 40 / 0.9848077530, 1e-6);
}

TEST(TrunnionSlot, TheOutlineIsTheAnalyticEnvelope) {
    auto random = seeded(5);
    for (int i = 0; i < 200; ++i) {
        const double radius = uniform(random, 10, 80), thick = uniform(random, 2, 40);
        const double away = radius + thick + uniform(random, 20, 900), lean = uniform(random, -0.5, 0.5);
        const double a = uniform(random, -0.6, 0.6), b = uniform(random, -0.6, 0.6);
        const double from = std::min(a, b), to = std::max(a, b);
        const auto ring = slotIn(away, thick, lean, radius, from, to);
        const auto e = slotEdges(away, thick, radius, from - lean, to - lean);
        ASSERT_TRUE(ring && e);
        const Box2 box = bounds(*ring);
        const double top = std::max(e->outerTop, e->innerTop),
                     bottom = std::min(e->outerBottom, e->innerBottom);
        EXPECT_GE(box.max.y(), top - 1e-9);
        EXPECT_LE(box.max.y(), top + 0.2);
        EXPECT_LE(box.min.y(), bottom + 1e-9);
        EXPECT_GE(box.min.y(), bottom - 0.2);
        EXPECT_GE(box.max.x(), radius);
        EXPECT_LE(box.size().x(), 2 * radius + 0.3);
    }
}

TEST(TrunnionSlot, NoPointOfTheTubeInThePlateIsOutside) {
    auto random = seeded(6);
    for (int i = 0; i < 60; ++i) {
        const SlotProblem p = skewPlate(random, -0.5, 0.8);
        Frame flat = plates::panelFrame(p.outer.normal, {});
        flat.origin = p.outer.offset * p.outer.normal;
        const auto ring = slotOutline(p, flat);
        ASSERT_TRUE(ring);
        for (int k = 0; k < 400; ++k) {
            const double e = uniform(random, p.from, p.to), around = uniform(random, 0, 2 * std::numbers::pi);
            const Vec3 d(std::cos(e), 0, std::sin(e)), side = Vec3::UnitY(), rise = d.cross(side);
            const Vec3 start = p.radius * (std::cos(around) * side + std::sin(around) * rise);
            const double depth = uniform(random, 0, p.thickness);
            const double s = (p.outer.offset - depth - p.outer.normal.dot(start)) / p.outer.normal.dot(d);
            EXPECT_TRUE(contains(*ring, flat.toPlane(start + s * d), 1e-9));
        }
    }
}

// Plate upright 300 ahead, 10 thick; a tube of radius 30 whose flat end is 320 from the pivot, 0 to 60°. In
// the plate's faces are points 300 or 290 ahead; the highest of the tube there is on the end's upper rim,
// hypot(320, 30) from the pivot, as it comes back through the inner face: sqrt(320² + 30² - 290²) up.
TEST(TrunnionSlot, AShortTubeNeedsAsMuchAsItsEndReaches) {
    SlotProblem p;
    p.radius = 30;
    p.front = 320;
    p.from = 0;
    p.to = 60 * degrees;
    p.thickness = 10;
    p.outer = {Vec3::UnitX(), 300};
    Frame flat = plates::panelFrame(p.outer.normal, {});
    flat.origin = {300, 0, 0};
    EXPECT_FALSE(endIsBeyond(p));
    const auto ring = slotOutline(p, flat);
    ASSERT_TRUE(ring);
    const Box2 box = bounds(*ring);
    const double top = std::sqrt(320.0 * 320 + 30 * 30 - 290 * 290);
    EXPECT_GE(box.max.y(), top);
    EXPECT_LE(box.max.y(), top + 0.5);
    EXPECT_NEAR(box.min.y(), -30, 0.1);
    EXPECT_NEAR(box.size().x(), 60, 0.3);
    p.front = 1000; // long enough at 60°: as if endless
    EXPECT_TRUE(endIsBeyond(p));
    SlotProblem endless = p;
    endless.front = std::numeric_limits<double>::infinity();
    EXPECT_EQ(*slotOutline(p, flat), *slotOutline(endless, flat));
    p.front = 280; // it does not reach
    EXPECT_EQ(slotOutline(p, flat).error().code, "slot-none");
}

TEST(TrunnionSlot, NoPointOfAShortTubeInThePlateIsOutside) {
    auto random = seeded(16);
    int cut = 0;
    for (int i = 0; i < 60; ++i) {
        SlotProblem p = skewPlate(random, -0.9, 1.2);
        p.front = p.outer.offset * uniform(random, 0.9, 1.6);
        Frame flat = plates::panelFrame(p.outer.normal, {});
        flat.origin = p.outer.offset * p.outer.normal;
        const auto ring = slotOutline(p, flat);
        for (int k = 0; k < 2000; ++k) {
            const double e = uniform(random, p.from, p.to), around = uniform(random, 0, 2 * std::numbers::pi);
            const Vec3 d(std::cos(e), 0, std::sin(e)), side = Vec3::UnitY(), rise = d.cross(side);
            const double r = p.radius * std::sqrt(uniform(random, 0, 1));
            const Vec3 at =
                uniform(random, 0, p.front) * d + r * (std::cos(around) * side + std::sin(around) * rise);
            const double deep = -p.outer.distance(at);
            if (deep < 0 || deep > p.thickness || p.outer.normal.dot(d) < 0.18) continue;
            ++cut;
            ASSERT_TRUE(ring) << i;
            EXPECT_TRUE(contains(*ring, flat.toPlane(at), 1e-9)) << i;
        }
    }
    EXPECT_GT(cut, 500);
}

TEST(TrunnionSlot, Refusals) {
    EXPECT_EQ(slotEdges(50, 12, 40, 0, 0.1).error().code, "slot-pivot-near");
    EXPECT_EQ(slotEdges(500, 12, 40, 0.2, 0.1).error().code, "slot-angle");
    EXPECT_EQ(slotEdges(500, 12, 40, 0, 1.5).error().code, "slot-angle");
    EXPECT_EQ(slotIn(45, 12, 0, 40, 0, 0.1).error().code, "slot-pivot-near");
    EXPECT_EQ(slotIn(500, 12, 95 * degrees, 40, 0, 0.1).error().code, "slot-none");
}

} // namespace
} // namespace slab
