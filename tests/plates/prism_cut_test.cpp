// A many-sided prism taken out of a convex cell, against the plain cut by half-spaces.
#include "core/plates/prism_cut.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::plates;

namespace {

double volumeOf(const Cells& cells) {
    double sum = 0;
    for (const Cell& c : cells) sum += volume(c);
    return sum;
}

/// Corners on an ellipse about `middle`, so that it is convex, seen along `direction`.
Prism prismAt(PlaneTable& planes, const Vec3& middle, const Vec3& direction, const Vec2& radii, int sides,
              double turn = 0) {
    Prism prism;
    prism.direction = direction.normalized();
    const Vec3 u = prism.direction.unitOrthogonal(), v = prism.direction.cross(u);
    for (int i = 0; i < sides; ++i) {
        const double a = turn + 2 * std::numbers::pi * i / sides;
        prism.corners.push_back(middle + u * (radii.x() * std::cos(a)) + v * (radii.y() * std::sin(a)));
    }
    for (int i = 0; i < sides; ++i) {
        const Vec3& a = prism.corners[static_cast<std::size_t>(i)];
        const Vec3 n = (prism.corners[static_cast<std::size_t>((i + 1) % sides)] - a)
                           .cross(prism.direction)
                           .normalized();
        prism.sides.push_back(planes.add({n, n.dot(a)}));
    }
    return prism;
}

bool inside(const PlaneTable& planes, const std::vector<Half>& halves, const Vec3& p, double margin) {
    for (const Half& h : halves)
        if (planes.outside(h, p) > margin) return false;
    return true;
}

} // namespace

TEST(PrismCut, TakesThePolygonsAreaTimesTheThickness) {
    // Area of a regular polygon: n/2 r² sin(2π/n), textbook geometry.
    for (const int sides : {3, 4, 5, 8, 24, 96}) {
        PlaneTable planes(Vec3::Zero(), 1000);
        const Cell plate = boxCell(planes, {-300, -200, 0}, {300, 200, 12});
        Cells left;
        const double taken =
            subtract(planes, plate, prismAt(planes, {20, 10, 0}, Vec3::UnitZ(), {90, 90}, sides, 0.3), left);
        const double area = sides / 2.0 * 90 * 90 * std::sin(2 * std::numbers::pi / sides);
        EXPECT_NEAR(taken, area * 12, 1e-5) << sides;
        EXPECT_NEAR(volumeOf(left), 600.0 * 400 * 12 - area * 12, 1e-5) << sides;
        EXPECT_EQ(left.size(), static_cast<std::size_t>(sides));
    }
}

TEST(PrismCut, LeavesWhatItDoesNotMeetWhole) {
    PlaneTable planes(Vec3::Zero(), 1000);
    const Cell plate = boxCell(planes, {0, 0, 0}, {100, 100, 10});
    // Beside it; off its corner, where no side of the prism parts the two but those of the plate do; touching
    // a side.
    const std::pair<Vec3, double> places[] = {
        {{300, 50, 0}, std::numbers::pi / 4},
        {{138, 138, 0}, 0.1},
        {{100 + 50 * std::cos(std::numbers::pi / 12), 50, 0}, std::numbers::pi / 12}};
    for (const auto& [middle, turn] : places) {
        Cells left;
        EXPECT_EQ(subtract(planes, plate, prismAt(planes, middle, Vec3::UnitZ(), {50, 50}, 12, turn), left),
                  0);
        ASSERT_EQ(left.size(), 1U);
        EXPECT_NEAR(volume(left[0]), 1e5, 1e-6);
    }
    Cells left;
    EXPECT_EQ(subtract(planes, {}, prismAt(planes, {0, 0, 0}, Vec3::UnitZ(), {50, 50}, 12), left), 0);
}

TEST(PrismCut, AgreesWithThePlainCutInRandomPlaces) {
    auto random = seeded();
    int met = 0;
    for (int round = 0; round < 600 / slowdown; ++round) {
        PlaneTable planes(Vec3::Zero(), 1000);
        Cell cell = boxCell(planes, {-200, -150, 0}, {200, 150, 20});
        for (int k = below(random, 4); k > 0; --k) {
            const Vec3 n = Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -0.3, 0.3));
            const Cell cut = clipped(planes, cell, planes.add({n.normalized(), uniform(random, 40, 180)}));
            if (!cut.empty()) cell = cut;
        }
        const Vec3 direction(uniform(random, -0.6, 0.6), uniform(random, -0.6, 0.6), 1);
        const Vec3 middle(uniform(random, -260, 260), uniform(random, -220, 220), 10);
        const Prism prism =
            prismAt(planes, middle, direction, {uniform(random, 5, 160), uniform(random, 5, 160)},
                    5 + below(random, 44), uniform(random, 0, 7));
        Cells quick, plain;
        const double taken = subtract(planes, cell, prism, quick);
        const double expected = subtract(planes, cell, prism.halves(), plain);
        EXPECT_NEAR(taken, expected, 1e-6 * volume(cell)) << round;
        EXPECT_NEAR(volumeOf(quick) + taken, volume(cell), 1e-6 * volume(cell)) << round;
        met += expected > 0 ? 1 : 0;
        // Every point of the cell is in the prism or in just one piece.
        for (int k = 0; k < 40; ++k) {
            const Vec3 p(uniform(random, -200, 200), uniform(random, -150, 150), uniform(random, 0, 20));
            if (!inside(planes, halvesOf(cell), p, -1e-6)) continue;
            int pieces = 0;
            for (const Cell& piece : quick) pieces += inside(planes, halvesOf(piece), p, -1e-9) ? 1 : 0;
            const bool within = inside(planes, prism.halves(), p, -1e-6);
            if (within || !inside(planes, prism.halves(), p, 1e-6)) {
                EXPECT_LE(pieces, within ? 0 : 1) << round;
            }
        }
    }
    EXPECT_GT(met, 100 / slowdown);
}

TEST(PrismCut, EndsHoldItBack) {
    PlaneTable planes(Vec3::Zero(), 1000);
    const Cell block = boxCell(planes, {-100, -100, 0}, {100, 100, 100});
    Prism prism = prismAt(planes, {0, 0, 0}, Vec3::UnitZ(), {40, 40}, 12);
    prism.ends = {planes.add({-Vec3::UnitZ(), -30}), planes.add({Vec3::UnitZ(), 80})};
    Cells left;
    EXPECT_NEAR(subtract(planes, block, prism, left), 6 * 40 * 40 * std::sin(std::numbers::pi / 6) * 50,
                1e-6);
}
