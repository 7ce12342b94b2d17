// Tubes of many metres: proven as far as a short one, in about as many steps.
#include "core/mechanisms/long_pieces.h"
#include "core/mechanisms/sweep.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <numbers>

namespace slab {
namespace {

/// Elevation from level to 60° about -y through `pivot`, carried by a full turn about z.
Motion risesAndTurns(const Vec3& pivot) {
    Move up;
    up.at = pivot;
    up.axis = -Vec3::UnitY();
    up.to = std::numbers::pi / 3;
    Move turn;
    turn.from = -std::numbers::pi;
    turn.to = std::numbers::pi;
    turn.endless = true;
    return {"tube", {up, turn}};
}

TEST(LongTubes, TheirLengthsAreTheWholeTube) {
    auto random = seeded(5);
    for (int i = 0; i < 200; ++i) {
        const auto point = [&](double size) {
            return Vec3(uniform(random, -size, size), uniform(random, -size, size),
                        uniform(random, -size, size));
        };
        const ConvexSolid tube = makeCylinder(point(2000), point(40000), 45);
        const Motion motion = risesAndTurns(point(3000));
        const std::vector<ConvexSolid> lengths = inShortLengths(motion, {tube});
        ASSERT_GT(lengths.size(), 1U);
        EXPECT_EQ(lengths.front().points[0], tube.points[0]);
        EXPECT_EQ(lengths.back().points[1], tube.points[1]);
        for (std::size_t k = 0; k + 1 < lengths.size(); ++k)
            EXPECT_EQ(lengths[k].points[1], lengths[k + 1].points[0]);
        const ConvexSolid probe = makeBoxSolid(point(20000), point(20000));
        double least = 1e300;
        for (const ConvexSolid& s : lengths) least = std::min(least, nearest(s, probe).distance);
        EXPECT_NEAR(least, nearest(tube, probe).distance, 1e-6);
    }
    const ConvexSolid stub = makeCylinder({0, 0, 0}, {900, 0, 0}, 30);
    EXPECT_EQ(inShortLengths(risesAndTurns(Vec3::Zero()), {stub}), std::vector{stub});
}

TEST(LongTubes, ClearancesAreProvenWhateverTheLength) {
    const Vec3 pivot(0, 0, 1500);
    const ConvexSolid post = makeBoxSolid({600, -50, 0}, {700, 50, 1300});
    SweepOptions options;
    options.enough = 100; // mm of the 170 between them
    for (const double front : {900.0, 10000.0, 60000.0}) {
        const ConvexSolid tube = makeCylinder(pivot - 150 * Vec3::UnitX(), pivot + front * Vec3::UnitX(), 30);
        const SweepResult r = leastOver(risesAndTurns(pivot), {tube}, {post}, options);
        EXPECT_TRUE(r.above) << front << ": " << r.bound << " after " << r.steps;
        EXPECT_LT(r.steps, 2000) << front;
    }
}

TEST(LongTubes, WhatTheyMeetIsAsDeepAsBefore) {
    const Vec3 pivot(0, 0, 1500);
    const ConvexSolid post = makeBoxSolid({600, -50, 0}, {700, 50, 1490});
    const ConvexSolid tube = makeCylinder(pivot - 150 * Vec3::UnitX(), pivot + 60000 * Vec3::UnitX(), 30);
    SweepOptions options;
    options.stepsOnceMet = 2000;
    Motion level = risesAndTurns(pivot);
    level.moves.pop_back();
    const SweepResult r = leastOver(level, {tube}, {post}, options);
    EXPECT_NEAR(r.clearance, -20, 0.4); // level, 20 mm into its top: to 2 %
}

} // namespace
} // namespace slab
