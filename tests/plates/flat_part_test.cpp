// Boards with square edges from any outline.
#include "core/geometry/occt.h"
#include "core/plates/flat_part.h"
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
