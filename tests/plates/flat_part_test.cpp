// Boards with square edges from any outline.
#include "core/geometry/occt.h"
#include "core/plates/flat_part.h"
#include "core/plates/outline.h"
#include "core/plates/prisms.h"
#include "core/plates/solid.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

Ring circle(double radius, int facets, bool clockwise) {
    Ring ring;
    for (int i = 0; i < facets; ++i) {
        const double a = 2 * std::numbers::pi * i / facets * (clockwise ? -1 : 1);
        ring.emplace_back(radius * std::cos(a), radius * std::sin(a));
    }
    return ring;
}

FlatPart ring(double outside, double inside, int facets) {
    FlatPart part{"rings/seat", "rings", "ply", 12, {}, {}, {"bore"}};
    part.frame.origin = {1000, -200, 700};
    part.outline = {circle(outside, facets, false), {circle(inside, facets, true)}};
    return part;
}

// Area of a regular polygon, n/2 R² sin(2π/n): textbook.
TEST(FlatPart, RingHasTheAreaOfItsPolygons) {
    const auto plate = flatPart(ring(300, 200, 96));
    ASSERT_TRUE(plate) << plate.error().message;
    const double area = 48 * std::sin(2 * std::numbers::pi / 96) * (300.0 * 300 - 200.0 * 200);
    EXPECT_NEAR(plate->volume, area * 12, 1e-6 * plate->volume);
    EXPECT_TRUE(checkClosed(plate->solid));
    EXPECT_NEAR(volume(plate->solid), plate->volume, 1e-6 * plate->volume);
    const auto judged = occt::volume(plate->solid);
    ASSERT_TRUE(judged);
    EXPECT_NEAR(*judged, plate->volume, 1e-6 * plate->volume);
    ASSERT_EQ(plate->holes.size(), 1U);
    EXPECT_EQ(plate->holes[0].opening, "bore");
    EXPECT_EQ(plate->holes[0].outer.size(), 96U);
    EXPECT_EQ(plate->boundary.outer.size(), 96U);
    // The panel's frame has its origin at the lower left corner, and its outside face where the board's is.
    EXPECT_NEAR(bounds(plate->boundary.outer).min.norm(), 0, 1e-6);
    EXPECT_NEAR(plate->frame.toBody(plate->boundary.outer[0]).z(), 700, 1e-9);
}

TEST(FlatPart, AnyPlacedOutlineKeepsItsArea) {
    auto random = seeded();
    const auto unit = [](std::mt19937_64& r) { return uniform(r, 0, 1); };
    for (int run = 0; run < 40; ++run) {
        FlatPart part{"frames/rib", "frames", "ply", 3 + 20 * unit(random), {}, {}, {}};
        part.frame.origin = {1000 * unit(random), 1000 * unit(random), 1000 * unit(random)};
        part.frame.axes = (Eigen::AngleAxisd(6 * unit(random), Vec3::UnitZ()) *
                           Eigen::AngleAxisd(6 * unit(random), Vec3::UnitX()))
                              .toRotationMatrix();
        const int corners = 3 + static_cast<int>(9 * unit(random));
        for (int i = 0; i < corners; ++i) { // star-shaped, so that it does not cross itself
            const double a = 2 * std::numbers::pi * (i + 0.4 * unit(random)) / corners,
                         r = 100 + 300 * unit(random);
            part.outline.outer.emplace_back(r * std::cos(a), r * std::sin(a));
        }
        const auto plate = flatPart(part);
        ASSERT_TRUE(plate) << run << ": " << plate.error().message;
        EXPECT_NEAR(plate->volume, area(part.outline) * part.thickness, 1e-7 * plate->volume) << run;
        EXPECT_NEAR(volume(plate->solid), plate->volume, 1e-7 * plate->volume) << run;
    }
}

// Rounding to a grid leaves corners cut off by a millionth of a millimetre: neither point goes straight on.
TEST(FlatPart, CornersCutOffByRoundingStayCorners) {
    auto random = seeded(4);
    for (int run = 0; run < 40; ++run) {
        FlatPart part{"frames/rib", "frames", "ply", 10, {}, {}, {}};
        Ring whole;
        const int corners = 3 + below(random, 9);
        for (int i = 0; i < corners; ++i) {
            const double a = 2 * std::numbers::pi * (i + uniform(random, 0, 0.4)) / corners,
                         r = uniform(random, 400, 900);
            whole.emplace_back(r * std::cos(a), r * std::sin(a));
        }
        for (int i = 0; i < corners; ++i) {
            const Vec2 &before = whole[static_cast<std::size_t>((i + corners - 1) % corners)],
                       &at = whole[static_cast<std::size_t>(i)],
                       &after = whole[static_cast<std::size_t>((i + 1) % corners)];
            part.outline.outer.push_back(at + uniform(random, 1e-7, 5e-7) * (before - at).normalized());
            part.outline.outer.push_back(at + uniform(random, 1e-7, 5e-7) * (after - at).normalized());
        }
        const auto plate = flatPart(part);
        ASSERT_TRUE(plate) << run << ": " << plate.error().message;
        EXPECT_EQ(plate->boundary.outer.size(), whole.size()) << run;
        EXPECT_NEAR(signedArea(plate->boundary.outer), signedArea(whole), 0.01) << run;
        EXPECT_NEAR(volume(plate->solid), plate->volume, 1e-6 * plate->volume) << run;
    }
}

// Against the general way from convex cells to outlines, which knows nothing of how the board was made.
TEST(FlatPart, IsWhatItsCellsWeldedTogetherAre) {
    auto random = seeded();
    for (int run = 0; run < 30; ++run) {
        FlatPart part = ring(uniform(random, 250, 400), uniform(random, 40, 120), 40);
        part.frame.axes =
            Eigen::AngleAxisd(uniform(random, 0, 6), Vec3(1, 2, 3).normalized()).toRotationMatrix();
        Ring slot = {{150, -20}, {150, 0}, {150, 20}, {190, 20}, {190, -20}}; // a corner on a straight side
        part.outline.holes.push_back(run % 2 ? slot : Ring(slot.rbegin(), slot.rend()));
        part.holes.emplace_back("slot");
        const auto plate = flatPart(part);
        ASSERT_TRUE(plate) << plate.error().message;

        plates::PlaneTable planes(part.frame.origin, 1000);
        plates::Half outer, inner;
        Polygon sorted = part.outline;
        for (Ring& hole : sorted.holes)
            if (signedArea(hole) > 0) std::reverse(hole.begin(), hole.end());
        const auto cells = plates::prisms(planes, part.frame, sorted, part.thickness, outer, inner);
        const auto pieces = plates::assemble(planes, cells);
        ASSERT_EQ(pieces.size(), 1U);
        Plate welded;
        welded.thickness = part.thickness;
        ASSERT_TRUE(plates::readOutlines(welded, pieces.front(), planes, outer, inner,
                                         [](const auto&, const auto&) { return plates::SideLabel{}; }));
        EXPECT_NEAR(pieces.front().volume, plate->volume, 1e-9 * plate->volume);
        EXPECT_EQ(pieces.front().solid.vertices.size(), plate->solid.vertices.size());
        EXPECT_TRUE(checkClosed(plate->solid));
        ASSERT_EQ(plate->holes.size(), 2U);
        EXPECT_EQ(plate->holes[0].opening, "slot"); // the smaller first
        EXPECT_EQ(plate->holes[1].opening, "bore");
        const auto same = [](const Ring& a, const Ring& b) {
            ASSERT_EQ(a.size(), b.size());
            for (std::size_t i = 0; i < a.size(); ++i) EXPECT_LT((a[i] - b[i]).norm(), 1e-6) << i;
        };
        same(plate->boundary.outer, welded.boundary.outer);
        same(plate->boundary.inner, welded.boundary.inner);
        ASSERT_EQ(welded.holes.size(), 2U);
        for (std::size_t h = 0; h < 2; ++h) same(plate->holes[h].outer, welded.holes[h].outer);
        for (const PanelEdge& e : welded.boundary.edges) EXPECT_NEAR(e.bevel, 0, 1e-9);
    }
}

TEST(FlatPart, OutlinesThatTouchArePartedThere) {
    FlatPart part{"frames/rib", "frames", "ply", 9, {}, {}, {}};
    part.outline.outer = {{0, 0}, {100, 0}, {100, 100}, {0, 100}};
    part.outline.holes = {{{50, 0}, {30, 40}, {70, 40}}}; // its corner lies on the lower side
    const auto plate = flatPart(part);
    ASSERT_TRUE(plate) << plate.error().message;
    EXPECT_NEAR(plate->volume, 9 * (100 * 100 - 40 * 40 / 2), 1e-6);
    EXPECT_TRUE(checkClosed(plate->solid));
}

TEST(FlatPart, RefusesWhatHasNoArea) {
    FlatPart part = ring(300, 200, 12);
    part.thickness = 0;
    EXPECT_EQ(flatPart(part).error().code, "part-outline");
    part = ring(300, 200, 12);
    std::swap(part.outline.outer[0], part.outline.outer[3]);
    EXPECT_EQ(flatPart(part).error().code, "part-outline");
}

} // namespace
} // namespace slab
