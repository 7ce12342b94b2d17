// Accessibility figures, swept paths and doors against worked figures and against points moved one by one.
#include "core/route/accessibility.h"
#include "core/route/footprint.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <set>

using namespace slab;
using namespace slab::route;

namespace {

constexpr double in = 25.4, deg = std::numbers::pi / 180;

double figure(std::string_view id) {
    const auto found = accessFigure(id);
    EXPECT_TRUE(found) << id;
    return found ? found->value : NAN;
}

Footprint anyFootprint(std::mt19937_64& random) {
    std::vector<Vec2> points;
    const int count = 3 + below(random, 7);
    for (int i = 0; i < count; ++i)
        points.emplace_back(uniform(random, -500, 900), uniform(random, -400, 400));
    return footprintOf(points).value();
}

/// Rectangle turned about its middle.
double spunCircle(double a, double b) {
    const Footprint f = rectangleFootprint(-a / 2, a / 2, b / 2).value();
    return tightestTurn(f, pivotDrive(0)).value().diameter();
}

} // namespace

TEST(Accessibility, FiguresAreTheTables) {
    // ADA 2010 prints millimetres that are rounded to 5: its inches count
    EXPECT_NEAR(figure("turning-circle"), 1525, 1.5);
    EXPECT_NEAR(figure("route-width"), 915, 1);
    EXPECT_NEAR(figure("door-width"), 815, 3);
    EXPECT_NEAR(figure("floor-width"), 760, 3);
    EXPECT_NEAR(figure("floor-length"), 1220, 1);
    EXPECT_NEAR(figure("threshold"), 12.7, 1e-9);
    EXPECT_NEAR(figure("ramp-rise"), 760, 3);
    EXPECT_NEAR(figure("common-mass"), 272, 0.2);
    EXPECT_NEAR(figure("uk3-speed") * 3.6 / 1000, 12.9, 0.05);
    // a T-turn's square is its two arms and the base's width: 12 + 36 + 12 (304.3.2)
    EXPECT_NEAR(figure("t-turn-square"), 2 * figure("t-turn-arm") + figure("t-turn-width"), 1e-9);
    EXPECT_NEAR(figure("t-turn-square"), figure("t-turn-base") + figure("t-turn-width"), 1e-9);
}

// The other rows of the same table, in the units in which they are printed: a number of it read anew.
TEST(Accessibility, EveryFigureIsAsPrinted) {
    const double lb = 0.45359237, mph = 1609.344 / 3.6; // kg, mm/s
    const std::vector<std::pair<std::string_view, double>> rows{
        {"turning-circle", 60 * in}, // ADA 2010 304.3.1
        {"t-turn-square", 60 * in},  // 304.3.2
        {"t-turn-width", 36 * in},
        {"t-turn-arm", 12 * in},
        {"t-turn-base", 24 * in},
        {"floor-width", 30 * in}, // 305.3
        {"floor-length", 48 * in},
        {"route-width", 36 * in},      // 403.5.1
        {"door-width", 32 * in},       // 404.2.3
        {"threshold", in / 2},         // 404.2.5
        {"threshold-upright", in / 4}, // 303.2
        {"threshold-bevel", 0.5},      // 303.3
        {"ramp-slope", 1 / 12.0},      // 405.2
        {"ramp-slope-6in", 0.1},
        {"ramp-slope-3in", 0.125},
        {"cross-slope", 1 / 48.0}, // 405.3
        {"ramp-rise", 30 * in},    // 405.6
        {"counter-slope", 0.05},   // 406.2
        {"flare-slope", 0.1},      // 406.3
        {"flare-slope-no-landing", 1 / 12.0},
        {"kerb-landing", 36 * in},       // 406.4
        {"prowag-ramp-slope", 1 / 12.0}, // PROWAG R304.2.1
        {"prowag-ramp-length", 15 * 12 * in},
        {"grade-change", 0.133},   // R304.5.2
        {"common-width", 30 * in}, // old 49 CFR 37.3
        {"common-length", 48 * in},
        {"common-mass", 600 * lb},
        {"awm-manual-width", 786}, // University at Buffalo IDeA, 2010
        {"awm-manual-length", 1362},
        {"awm-power-width", 827},
        {"awm-power-length", 1414},
        {"awm-scooter-width", 837},
        {"awm-scooter-length", 1435},
        {"awm-corner-half", 850},
        {"awm-corner-chairs", 1000},
        {"awm-corner-scooters", 1100},
        {"rail-width", 700}, // rail PRM, transportable chair
        {"rail-length", 1200},
        {"rail-height", 1375},
        {"rail-turning", 1500},
        {"rail-mass", 300},
        {"rail-obstacle", 50},
        {"rail-clearance", 60},
        {"rail-dynamic", 6 * deg},
        {"rail-static", 9 * deg},
        {"uk3-mass", 150}, // UK class 3 and 2
        {"uk3-width", 850},
        {"uk3-speed", 8 * mph},
        {"uk3-speed-pavement", 4 * mph},
        {"uk3-hold", 0.2},
        {"uk2-mass", 113.4},
        {"uk2-speed", 4 * mph},
        {"us2-speed", 3 * mph}, // US CMS groups 2 and 3
        {"us2-obstacle", 40},
        {"us2-slope", 6 * deg},
        {"us3-speed", 4.5 * mph},
        {"us3-obstacle", 60},
        {"us3-slope", 7.5 * deg},
        {"iso-length", 1200}, // ISO 7193:1985, from memory
        {"iso-width", 700},
        {"iso-height", 1090}};
    for (const auto& [id, value] : rows) EXPECT_NEAR(figure(id), value, 1e-9 * value) << id;
    EXPECT_EQ(rows.size(), accessFigures().size());
}

TEST(Accessibility, EveryRowIsWhole) {
    std::set<std::string_view> seen;
    for (const AccessFigure& row : accessFigures()) {
        EXPECT_TRUE(seen.insert(row.id).second) << row.id;
        EXPECT_GT(row.value, 0) << row.id;
        EXPECT_FALSE(row.what.empty() || row.section.empty()) << row.id;
        EXPECT_EQ(row.seen.empty(), row.basis == Basis::recalled) << row.id; // what was read says where
    }
    EXPECT_GE(seen.size(), 60u);
    EXPECT_FALSE(accessFigure("no such figure"));
}

TEST(Accessibility, SlopesInDegrees) {
    // computed in the same table: 1:12, 1:20, 1:10, 1:8, 1:48, 1:5
    const std::vector<std::pair<std::string_view, double>> rows{
        {"ramp-slope", 4.764},     {"counter-slope", 2.862}, {"ramp-slope-6in", 5.711},
        {"ramp-slope-3in", 7.125}, {"cross-slope", 1.193},   {"uk3-hold", 11.310}};
    for (const auto& [id, degrees] : rows) EXPECT_NEAR(std::atan(figure(id)) / deg, degrees, 5e-4) << id;
    // 1:12 up behind 1:20 down: 13.33 % algebraic, above the 13.3 % as printed; the angle is the sum of
    // arctangents
    const double change = figure("ramp-slope") + figure("counter-slope");
    EXPECT_NEAR(change, 0.1333, 5e-5);
    EXPECT_GT(change, figure("grade-change"));
    EXPECT_NEAR(change, figure("grade-change"),
                0.0005); // alike at the one decimal of a percent that is printed
    const double sum = std::atan(figure("ramp-slope")) + std::atan(figure("counter-slope"));
    EXPECT_NEAR(sum / deg, 7.626, 5e-4);
    EXPECT_NEAR(std::atan(change) / deg, 7.595, 5e-4); // what it is not
}

TEST(Ramp, SixInchesAtOneInTwelve) {
    // 72 in run, 72.25 in along the slope
    const auto ramp = rampSize(6 * in, 1 / 12.0);
    ASSERT_TRUE(ramp);
    EXPECT_NEAR(ramp->run / in, 72, 1e-9);
    EXPECT_NEAR(ramp->length / in, 72.25, 0.005);
    EXPECT_EQ(rampSize(100, 0).error().code, "out-of-range");
    EXPECT_EQ(rampSize(-1, 0.1).error().code, "out-of-range");
}

TEST(SweptPath, TurningOnTheSpotInATurningCircle) {
    // 30 x 48 in sweeps 56.60 in and fits 60; 33 x 56 needs 65.0; 827 x 1414 mm needs 1638, more than 1525
    EXPECT_NEAR(spunCircle(48 * in, 30 * in) / in, 56.60, 0.005);
    EXPECT_LE(spunCircle(48 * in, 30 * in), figure("turning-circle"));
    EXPECT_NEAR(spunCircle(56 * in, 33 * in) / in, 65.0, 0.05);
    EXPECT_GT(spunCircle(56 * in, 33 * in), figure("turning-circle"));
    EXPECT_NEAR(spunCircle(figure("awm-power-length"), figure("awm-power-width")), 1638, 0.5);
    EXPECT_GT(spunCircle(1414, 827), 1525);
}

TEST(SweptPath, WorkedTurns) {
    // bicycle model: L 0.9, steer 40°, half width 0.40, front 1.4 ahead of the rear axle
    const auto drive = steeredDrive(0, 900, 40 * deg);
    ASSERT_TRUE(drive);
    EXPECT_NEAR(drive->leastRadius, 1072.6, 0.05);
    const auto path = tightestTurn(rectangleFootprint(-300, 1400, 400).value(), *drive);
    ASSERT_TRUE(path);
    EXPECT_NEAR(path->outer, 2031.9, 0.05);
    EXPECT_NEAR(path->inner, 672.6, 0.05);
    EXPECT_NEAR(path->width(), 1359.3, 0.05);
    // turn about the drive axle, body 1.0 forward, 0.4 half width: 2.154 m
    EXPECT_NEAR(tightestTurn(rectangleFootprint(-400, 1000, 400).value(), pivotDrive(0))->diameter(), 2154,
                0.5);
    // off-tracking of R 3 m, L 0.9 m: 0.138 m
    EXPECT_NEAR(offTracking(3000, 900).value(), 138, 0.5);
}

TEST(SweptPath, HoldsEveryPointThatTurns) {
    auto random = seeded(61);
    for (int round = 0; round < 300 / slowdown; ++round) {
        const Footprint f = anyFootprint(random);
        const double axle = uniform(random, -400, 400), radius = uniform(random, 0, 1500);
        const auto path = sweptPath(f, axle, radius);
        ASSERT_TRUE(path);
        double inner = 1e9, outer = 0;
        for (int k = 0; k < 400; ++k) {
            const std::size_t i = static_cast<std::size_t>(below(random, static_cast<int>(f.outline.size())));
            const Vec2 p =
                f.outline[i] + uniform(random, 0, 1) * (f.outline[(i + 1) % f.outline.size()] - f.outline[i]);
            const double away = (p - Vec2(axle, radius)).norm();
            EXPECT_LE(away, path->outer + 1e-9);
            EXPECT_GE(away, path->inner - 1e-9);
            inner = std::min(inner, away);
            outer = std::max(outer, away);
        }
        EXPECT_NEAR(path->inner > 0 ? inner : 0, path->inner, 60);
        EXPECT_NEAR(outer, path->outer, 60);
        // to starboard it is the mirror image's turn to port
        const double both = tightestTurn(f, {axle, radius})->outer;
        EXPECT_EQ(both, std::max(path->outer, sweptPath(mirrored(f), axle, radius)->outer));
        // the corner that is told is the one that sweeps widest, of the vehicle as it is
        const auto tight = tightestTurn(f, {axle, radius});
        const Vec2 c = f.outline[static_cast<std::size_t>(tight->outerCorner)];
        EXPECT_NEAR(std::max((c - Vec2(axle, radius)).norm(), (c - Vec2(axle, -radius)).norm()), tight->outer,
                    1e-9);
    }
}

TEST(Door, MarginAndBindingCorners) {
    const Footprint f = footprintOf({{-300, -330}, {-300, 330}, {500, 350}, {900, 0}, {500, -310}}).value();
    const auto pass = passDoor(f, 1500, {815, 2030, 100});
    ASSERT_TRUE(pass);
    EXPECT_NEAR(pass->margin, 815 - 350 - 330, 1e-9);
    EXPECT_NEAR(pass->above, 530, 1e-9);
    EXPECT_EQ(f.outline[static_cast<std::size_t>(pass->port)], Vec2(500, 350));
    EXPECT_EQ(f.outline[static_cast<std::size_t>(pass->starboard)], Vec2(-300, -330));
    EXPECT_NEAR(pass->offset, -10, 1e-9);
    EXPECT_TRUE(pass->passes());
    EXPECT_FALSE(passDoor(f, 2100, {815, 2030, 100})->passes());
    EXPECT_FALSE(passDoor(f, 1500, {670, 2030, 100})->passes());
}

TEST(Door, AslantAsPointsMovedThrough) {
    auto random = seeded(62);
    for (int round = 0; round < 200 / slowdown; ++round) {
        const Footprint f = anyFootprint(random);
        const Doorway door{uniform(random, 700, 1100), 2000, uniform(random, 0, 200)};
        const double skew = uniform(random, -0.6, 0.6);
        const auto pass = passDoor(f, 1000, door, skew);
        ASSERT_TRUE(pass);
        // jambs seen across the way: each of the four edges of the wall's cut
        const Vec2 across(-std::sin(skew),
                          std::cos(skew)); // the door runs along y, the way is turned by skew
        double left = 1e9, right = -1e9;
        for (double x : {-door.thickness / 2, door.thickness / 2}) {
            left = std::min(left, across.dot(Vec2(x, door.width / 2)));
            right = std::max(right, across.dot(Vec2(x, -door.width / 2)));
        }
        EXPECT_NEAR(pass->margin, left - right - bounds(f.outline).size().y(), 1e-9);
    }
}

TEST(Footprints, Refusals) {
    EXPECT_EQ(footprintOf({}).error().code, "footprint-flat");
    EXPECT_EQ(footprintOf({{0, 0}, {1, 1}, {2, 2}}).error().code, "footprint-flat");
    EXPECT_EQ(footprintOf({{0, 0}, {1, NAN}, {2, 0}}).error().code, "out-of-range");
    EXPECT_EQ(rectangleFootprint(1, 0, 1).error().code, "out-of-range");
    EXPECT_EQ(steeredDrive(0, 900, 0).error().code, "out-of-range");
    EXPECT_EQ(steeredDrive(0, 900, 2).error().code, "out-of-range");
    EXPECT_EQ(offTracking(800, 900).error().code, "out-of-range");
    const Footprint f = rectangleFootprint(0, 1, 1).value();
    EXPECT_EQ(sweptPath(f, 0, -1).error().code, "out-of-range");
    EXPECT_EQ(sweptPath({}, 0, 1).error().code, "out-of-range");
    EXPECT_EQ(tightestTurn({}, {}).error().code, "out-of-range");
    EXPECT_EQ(passDoor(f, 0, {800, 2000, 0}).error().code, "out-of-range");
    EXPECT_EQ(passDoor(f, 100, {800, 2000, 0}, 1.6).error().code, "out-of-range");
}
