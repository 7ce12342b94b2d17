// Corridor corners against the ladder and the rectangle of the textbooks, and against a search on a grid.
#include "core/route/bounded.h"
#include "core/route/corner.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::route;

namespace {

constexpr double inches = 25.4, square = std::numbers::pi / 2;

/// Longest ladder round a square corner: (a^(2/3) + b^(2/3))^(3/2), any calculus textbook.
double ladder(double a, double b) {
    return std::pow(std::cbrt(a * a) + std::cbrt(b * b), 1.5);
}

Footprint slabOf(double length, double width) {
    return rectangleFootprint(-length / 2, length / 2, width / 2).value();
}

Footprint blob(std::mt19937_64& random) {
    std::vector<Vec2> points;
    const int count = 3 + below(random, 6);
    for (int i = 0; i < count; ++i)
        points.emplace_back(uniform(random, -600, 800), uniform(random, -350, 350));
    return footprintOf(points).value();
}

/// Is a polygon clear of the corner, as it stands in the world: x along the way in, the inner edge at the
/// origin? Asked point by point along its outline, in its own way: not through supports.
bool clearOfWalls(const Footprint& f, double heading, const Vec2& at, const Corner& c) {
    const Eigen::Rotation2Dd turn(heading);
    const double sine = std::sin(c.turn), cosine = std::cos(c.turn);
    const std::size_t n = f.outline.size();
    for (std::size_t i = 0; i < n; ++i)
        for (int k = 0; k < 64; ++k) {
            const Vec2 p =
                turn * Vec2(f.outline[i] + k / 64.0 * (f.outline[(i + 1) % n] - f.outline[i])) + at;
            const double s = -p.y(), t = p.x() * sine - p.y() * cosine;
            if (s > c.in || t > c.out || (s < 0 && t < 0)) return false;
        }
    return true;
}

/// Some place at a heading where it is clear, looked for on a grid.
bool somewhereClear(const Footprint& f, double heading, const Corner& c, double step) {
    for (double x = -2500; x <= 2500; x += step)
        for (double y = -2500; y <= 2500; y += step)
            if (clearOfWalls(f, heading, {x, y}, c)) return true;
    return false;
}

} // namespace

TEST(ProvedLeast, FindsTheLeastOfManyValleys) {
    auto random = seeded(63);
    for (int round = 0; round < 50; ++round) {
        const double a = uniform(random, 3, 40), b = uniform(random, 0, 6);
        const auto f = [&](double x) { return std::sin(a * x + b) + 0.3 * x; };
        double sampled = 10;
        for (int k = 0; k <= 200000; ++k) sampled = std::min(sampled, f(k * 2.0 / 200000));
        const ProvedLeast got = provedLeast(f, 0, 2, a + 0.3, 1e-4);
        EXPECT_NEAR(got.value, sampled, 1e-4);
        EXPECT_LE(got.slack, 1e-4);
        EXPECT_NEAR(f(got.at), got.value, 1e-12);
    }
}

TEST(CarryRound, TheLadder) {
    // 36 / 36 in: 101.82 in (computed worked figure); a ladder is given as a rectangle of a hair's width
    EXPECT_NEAR(ladder(36, 36), 101.82, 0.005);
    const double hair = 1e-6;
    for (const auto& [a, b] : {std::pair(36.0, 36.0), std::pair(36.0, 48.0), std::pair(20.0, 60.0)}) {
        const double longest = ladder(a, b) * inches;
        const auto at = carryRound(slabOf(longest, hair), {a * inches, b * inches, square}, 0.001);
        ASSERT_TRUE(at);
        EXPECT_NEAR(at->margin, 0, 0.002) << a << " " << b;
        EXPECT_TRUE(
            carryRound(slabOf(longest - 0.05, hair), {a * inches, b * inches, square}, 0.001)->passes());
        EXPECT_FALSE(
            carryRound(slabOf(longest + 0.05, hair), {a * inches, b * inches, square}, 0.001)->passes());
        EXPECT_EQ(at->limit, CornerLimit::innerEdge);
    }
    // tightest at tan θ = (b / a)^(1/3)
    const auto at =
        carryRound(slabOf(ladder(36, 48) * inches, hair), {36 * inches, 48 * inches, square}, 0.0001);
    EXPECT_NEAR(std::tan(at->heading), std::cbrt(36 / 48.0), 0.01);
}

TEST(CarryRound, ARectangleInEqualCorridors) {
    // Lmax = 2 (√2 c − w): c 36, w 30 → 41.82 in; w 24 → 53.82 in (computed worked figures)
    for (const auto& [w, longest] : {std::pair(30.0, 41.82), std::pair(24.0, 53.82)}) {
        const double exact = 2 * (std::numbers::sqrt2 * 36 - w);
        EXPECT_NEAR(exact, longest, 0.005);
        const Corner corner{36 * inches, 36 * inches, square};
        const auto at = carryRound(slabOf(exact * inches, w * inches), corner, 0.001);
        ASSERT_TRUE(at);
        EXPECT_NEAR(at->margin, 0, 0.002);
        EXPECT_LE(at->slack, 0.001);
        EXPECT_TRUE(carryRound(slabOf(exact * inches - 0.1, w * inches), corner, 0.001)->passes());
        EXPECT_FALSE(carryRound(slabOf(exact * inches + 0.1, w * inches), corner, 0.001)->passes());
    }
}

TEST(CarryRound, TooWideForACorridor) {
    const auto in = carryRound(slabOf(500, 700), {600, 2000, square});
    ASSERT_TRUE(in);
    EXPECT_EQ(in->limit, CornerLimit::wayIn);
    EXPECT_NEAR(in->margin, -100, 1e-9);
    const auto out = carryRound(slabOf(500, 700), {2000, 650, square});
    EXPECT_EQ(out->limit, CornerLimit::wayOut);
    EXPECT_NEAR(out->margin, -50, 1e-9);
}

TEST(CarryRound, MarginIsHowMuchNarrowerTheCorridorsMayBe) {
    auto random = seeded(64);
    for (int round = 0; round < 60 / slowdown; ++round) {
        const Footprint f = blob(random);
        const Corner c{uniform(random, 1200, 2000), uniform(random, 1200, 2000), uniform(random, 0.4, 2.6)};
        const auto got = carryRound(f, c, 0.01);
        ASSERT_TRUE(got);
        const auto narrower = carryRound(f, {c.in - got->margin, c.out - got->margin, c.turn}, 0.01);
        EXPECT_NEAR(narrower->margin, 0, 0.03);
        // finer changes it by less than 0.1 mm
        EXPECT_NEAR(carryRound(f, c, 0.0005)->margin, got->margin, 0.011);
        // the other way round in a mirror
        const auto other = carryRound(mirrored(f), {c.in, c.out, -c.turn}, 0.01);
        EXPECT_NEAR(other->margin, got->margin, 0.02);
    }
}

TEST(CarryRound, AgreesWithAGridOfPlaces) {
    auto random = seeded(65);
    int free = 0, stuck = 0;
    for (int round = 0; round < 12; ++round) {
        const Footprint f = blob(random);
        const double width = uniform(random, 500, 1000);
        const Corner c{width, width * uniform(random, 0.9, 1.2), square};
        const auto got = carryRound(f, c, 0.01);
        ASSERT_TRUE(got);
        if (got->limit != CornerLimit::innerEdge) continue;
        if (got->margin > 30) { // a grid of 20 mm then finds room at every heading
            ++free;
            for (int k = 0; k <= 6; ++k)
                EXPECT_TRUE(somewhereClear(f, k * square / 6, c, 20)) << round << " " << k;
        } else if (got->margin <
                   -25) { // and none at the tightest, whatever the grid; its outline is asked each 1/64
            ++stuck;
            EXPECT_FALSE(somewhereClear(f, got->heading, c, 20)) << round;
        }
    }
    std::printf("free %d, stuck %d\n", free, stuck);
    EXPECT_GT(free, 0);
    EXPECT_GT(stuck, 0);
}

TEST(DriveRound, OnTheSpotInWideCorridors) {
    // a square that turns about its middle sweeps its diagonal: two corridors as wide as that just pass it
    const double side = 700, diagonal = side * std::numbers::sqrt2;
    const auto at = driveRound(slabOf(side, side), {diagonal, diagonal, square}, pivotDrive(0));
    ASSERT_TRUE(at);
    EXPECT_GE(at->margin, 0); // an arc may do better than a turn on the spot
    EXPECT_LE(at->margin, carryRound(slabOf(side, side), {diagonal, diagonal, square})->margin + 0.05);
}

TEST(DriveRound, AWideTurnNeedsItsSweptWidth) {
    // a point on an arc that touches both outer walls comes nearest to the inner edge half way: c = R (1 −
    // 1/√2)
    const Footprint dot = slabOf(1e-3, 1e-3);
    const double radius = 3000, needs = radius * (1 - 1 / std::numbers::sqrt2);
    const DriveGeometry drive{0, radius};
    EXPECT_NEAR(driveRound(dot, {needs, needs, square}, drive)->margin, 0, 0.05);
}

TEST(DriveRound, APointInAnyCorner) {
    // a point on an arc that touches both outer walls: of R, R (1 − cos φ/2) of it lies within the walls'
    // bisector, so corridors of c pass every arc up to R = c / (1 − cos φ/2) with nothing to spare
    const Footprint dot = slabOf(1e-3, 1e-3);
    for (double turn : {0.4, 1.0, -1.5, 2.2, 2.9}) {
        const double width = 800, radius = width / (1 - std::cos(turn / 2));
        EXPECT_NEAR(driveRound(dot, {width, width, turn}, {0, radius})->margin, 0, 0.05) << turn;
        EXPECT_GT(driveRound(dot, {width, width, turn}, {0, radius / 2})->margin, 100) << turn;
        EXPECT_LT(driveRound(dot, {width, width, turn}, {0, radius * 1.1})->margin, -10) << turn;
    }
}

TEST(DriveRound, NeverBetterThanCarriedAndNeverThroughAWall) {
    auto random = seeded(66);
    int passed = 0;
    for (int round = 0; round < 25 / slowdown + 1; ++round) {
        const Footprint f = blob(random);
        const Corner c{uniform(random, 900, 1900), uniform(random, 900, 1900), uniform(random, 0.6, 2.2)};
        const DriveGeometry drive{uniform(random, -300, 300), round % 2 ? uniform(random, 0, 900) : 0};
        const auto driven = driveRound(f, c, drive, 0.02), carried = carryRound(f, c, 0.02);
        ASSERT_TRUE(driven && carried);
        EXPECT_LE(driven->margin, carried->margin + 0.03);
        EXPECT_GE(driven->radius, drive.leastRadius);
        // more lock never hurts
        EXPECT_GE(driveRound(f, c, {drive.axle, drive.leastRadius / 2}, 0.02)->margin, driven->margin - 1);
        if (driven->margin < 5) continue;
        ++passed;
        // driven step by step: arc's middle from the outer walls as far as the sweep needs, then nothing
        // meets a wall
        const Vec2 about(drive.axle, driven->radius);
        Vec2 most(-1e9, -1e9);
        const auto st = [&](const Vec2& p) {
            return Vec2(-p.y(), p.x() * std::sin(c.turn) - p.y() * std::cos(c.turn));
        };
        for (int k = 0; k <= 2000; ++k)
            for (const Vec2& v : f.outline)
                most = most.cwiseMax(st(Eigen::Rotation2Dd(k * c.turn / 2000) * Vec2(v - about)));
        const Vec2 by = Vec2(c.in - 1, c.out - 1) - most; // (s, t) of the middle, a millimetre off the walls
        const double y = -by.x(), x = (by.y() + y * std::cos(c.turn)) / std::sin(c.turn);
        for (int k = 0; k <= 200; ++k) {
            const double heading = k * c.turn / 200;
            const Vec2 at = Vec2(x, y) - Eigen::Rotation2Dd(heading) * about;
            EXPECT_TRUE(clearOfWalls(f, heading, at, c)) << round << " " << k;
        }
        for (double back = 0; back < 3000; back += 100) {
            EXPECT_TRUE(clearOfWalls(f, 0, Vec2(x - back, y) - about, c));
            const Vec2 on = Vec2(x, y) - Eigen::Rotation2Dd(c.turn) * about;
            EXPECT_TRUE(clearOfWalls(f, c.turn, on + back * Vec2(std::cos(c.turn), std::sin(c.turn)), c));
        }
    }
    std::printf("driven through %d\n", passed);
    EXPECT_GT(passed, 0);
}

TEST(Corners, Refusals) {
    const Footprint f = slabOf(900, 600);
    EXPECT_EQ(carryRound(f, {0, 900, square}).error().code, "out-of-range");
    EXPECT_EQ(carryRound(f, {900, 900, 0}).error().code, "out-of-range");
    EXPECT_EQ(carryRound(f, {900, 900, 4}).error().code, "out-of-range");
    EXPECT_EQ(carryRound({}, {900, 900, square}).error().code, "out-of-range");
    EXPECT_EQ(carryRound(f, {900, 900, square}, 0).error().code, "out-of-range");
    EXPECT_EQ(driveRound(f, {900, 900, square}, {0, -1}).error().code, "out-of-range");
    EXPECT_EQ(driveRound(f, {900, NAN, square}, {0, 0}).error().code, "out-of-range");
}
