// Closed forms of turning past something (plane trigonometry), and the proof of the bound by dense sampling.
#include "core/mechanisms/sweep.h"
#include "core/mechanisms/sweep_things.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

Motion turning(double from, double to, Vec3 at = Vec3::Zero()) {
    Move m;
    m.at = at;
    m.from = from;
    m.to = to;
    return {"drum", {m}};
}
Motion endless() {
    Motion m = turning(-std::numbers::pi, std::numbers::pi);
    m.moves.front().endless = true;
    return m;
}
/// Elevation about -y through `pivot` (positive lifts what lies ahead), carried by a full turn about z.
Motion elevating(Vec3 pivot, double from, double to, bool turns) {
    Move up;
    up.at = pivot;
    up.axis = -Vec3::UnitY();
    up.from = from;
    up.to = to;
    Motion m{"tube", {up}};
    if (turns) m.moves.push_back(endless().moves.front());
    return m;
}
ConvexSolid wallAt(double x) {
    return makeBoxSolid({x, -5000, -5000}, {x + 100, 5000, 5000});
}

// What stands still sees the other go: the pose is told by the other's own value, sign and all.
TEST(Sweep, APoseAgainstSomethingElseKeepsItsSign) {
    Motion tube = turning(-std::numbers::pi / 6, std::numbers::pi / 3);
    tube.mechanism = "tube";
    tube.moves.front().words = "raised";
    const Motion seen = mechanisms::relativeMotion({"drum", {}}, tube);
    ASSERT_EQ(seen.moves.size(), 1U);
    EXPECT_NEAR(seen.moves.front().from, -std::numbers::pi / 3, 1e-15);
    EXPECT_NEAR(seen.moves.front().to, std::numbers::pi / 6, 1e-15);
    const double raised = -0.4171; // radians: 23.9° below level
    EXPECT_EQ(poseWords(tube, {raised}), "raised -23.9°");
    EXPECT_EQ(poseWords(seen, {-raised}), "against tube raised -23.9°");
    const Vec3 p(100, 20, 30); // the tube's turn and what is seen of it undo each other
    EXPECT_LT((poseAt(seen, {-raised})(poseAt(tube, {raised})(p)) - p).norm(), 1e-12);
    EXPECT_EQ(poseWords(seen, {0}).find('-'), std::string::npos);
}

TEST(Sweep, ABoxTurningPastAWallComesAsNearAsItsCornerCircle) {
    const ConvexSolid box = makeBoxSolid({-300, -200, 0}, {300, 200, 100});
    const SweepResult r = leastOver(endless(), {box}, {wallAt(500)});
    const double expected = 500 - std::hypot(300, 200); // corner circle
    EXPECT_NEAR(r.clearance, expected, 1e-3);
    EXPECT_LE(r.bound, expected + 1e-9);
    EXPECT_GE(r.bound, expected - 1.001e-3);
    std::printf("steps %d\n", r.steps);
}

TEST(Sweep, BetweenStopsTheReachIsTheSupportOfTheBox) {
    // Support function of a box turned by a: 300 |cos a| + 200 |sin a|; on [0, 20 deg] it rises.
    const ConvexSolid box = makeBoxSolid({-300, -200, 0}, {300, 200, 100});
    const double a = 20 * std::numbers::pi / 180;
    const SweepResult r = leastOver(turning(0, a), {box}, {wallAt(500)});
    EXPECT_NEAR(r.clearance, 500 - (300 * std::cos(a) + 200 * std::sin(a)), 1e-3);
    EXPECT_NEAR(r.at.at(0), a, 1e-4);
}

TEST(Sweep, ADrumOffItsAxisComesNearerByItsOffset) {
    const ConvexSolid drum = makeCylinder({40, 0, 0}, {40, 0, 200}, 250);
    const SweepResult r = leastOver(endless(), {drum}, {wallAt(300)});
    EXPECT_NEAR(r.clearance, 300 - 40 - 250, 1e-3);
    EXPECT_NEAR(std::remainder(r.at.at(0), 2 * std::numbers::pi), 0, 0.02);
}

TEST(Sweep, ASquareInASquareRoomIsNearestAtItsCorners) {
    std::vector<ConvexSolid> room;
    for (int i = 0; i < 4; ++i) {
        ConvexSolid w = wallAt(400);
        for (Vec3& p : w.points) p = Eigen::AngleAxisd(i * std::numbers::pi / 2, Vec3::UnitZ()) * p;
        room.push_back(w);
    }
    const SweepResult r = leastOver(endless(), {makeBoxSolid({-200, -200, 0}, {200, 200, 50})}, room);
    EXPECT_NEAR(r.clearance, 400 - 200 * std::sqrt(2), 1e-3);
}

TEST(Sweep, WhatMeetsTellsTheDeepestPlace) {
    const ConvexSolid box = makeBoxSolid({-300, -200, 0}, {300, 200, 100});
    const SweepResult r = leastOver(endless(), {box}, {makeBoxSolid({340, -5, 20}, {400, 5, 80})});
    // Corner circle 360.555: the corner runs 20.555 into the post, less as the post is only 10 wide.
    EXPECT_LT(r.clearance, 0);
    EXPECT_GE(r.clearance, -(std::hypot(300, 200) - 340) - 1e-6);
    EXPECT_LE(r.bound, r.clearance);
}

TEST(Sweep, ATubeUnderACeilingReachesItsEndsUpperRim) {
    // Upper rim of the end of a tube of length L and radius r at elevation a: L sin a + r cos a.
    const double L = 900, r = 40, a = 50 * std::numbers::pi / 180, ceiling = 1000;
    const ConvexSolid tube = makeCylinder({0, 0, 0}, {L, 0, 0}, r);
    const ConvexSolid above = makeBoxSolid({-3000, -3000, ceiling}, {3000, 3000, ceiling + 50});
    const SweepResult s = leastOver(elevating(Vec3::Zero(), -0.1, a, false), {tube}, {above});
    EXPECT_NEAR(s.clearance, ceiling - (L * std::sin(a) + r * std::cos(a)), 1e-3);
}

TEST(Sweep, ATubeOnATurntableReachesAWallWithBothMoves) {
    // Farthest rim of the end from the turntable's axis: e + L cos a + r sin a, greatest at tan a = r / L.
    const double e = 120, L = 600, r = 50;
    const ConvexSolid tube = makeCylinder({e, 0, 0}, {e + L, 0, 0}, r);
    const SweepResult s = leastOver(elevating({e, 0, 0}, -0.2, 1, true), {tube}, {wallAt(1000)});
    EXPECT_NEAR(s.clearance, 1000 - (e + std::hypot(L, r)), 2e-3);
    EXPECT_NEAR(std::abs(s.at.at(0)), std::atan2(r, L), 0.02);
    EXPECT_NEAR(std::remainder(s.at.at(1), 2 * std::numbers::pi), 0, 0.02);
    std::printf("steps %d\n", s.steps);
}

TEST(Sweep, DenseSamplingNeverGoesBelowTheBound) {
    auto random = seeded(11);
    for (int round = 0; round < 60 / slowdown + 1; ++round) {
        const auto point = [&](double size) {
            return Vec3(uniform(random, -size, size), uniform(random, -size, size),
                        uniform(random, -size, size));
        };
        ConvexSolid moving;
        const int kind = below(random, 3);
        const Vec3 middle = point(200);
        if (kind == 0)
            moving = makeCylinder(middle, middle + point(150), uniform(random, 10, 60));
        else if (kind == 1)
            moving = makeCapsule(middle, middle + point(150), uniform(random, 10, 60));
        else
            for (int i = 0; i < 7; ++i) moving.points.push_back(middle + point(100));
        ConvexSolid fixed;
        const Vec3 there = Vec3(uniform(random, 350, 700), 0, 0) + point(150);
        for (int i = 0; i < 6; ++i) fixed.points.push_back(there + point(120));
        Motion motion;
        const int moves = 1 + below(random, 2);
        for (int i = 0; i < moves; ++i) {
            Move m;
            m.at = point(100);
            m.axis = point(1).normalized();
            m.slides = below(random, 4) == 0;
            m.from = m.slides ? -50 : uniform(random, -2, 0);
            m.to = m.slides ? 80 : uniform(random, 0, 2);
            motion.moves.push_back(m);
        }
        const SweepResult r = leastOver(motion, {moving}, {fixed});
        double sampled = 1e300;
        const int n = moves == 1 ? 2000 : 120;
        for (int i = 0; i <= n; ++i)
            for (int j = 0; j <= (moves == 1 ? 0 : n); ++j) {
                std::vector<double> v{motion.moves[0].from +
                                      (motion.moves[0].to - motion.moves[0].from) * i / n};
                if (moves == 2)
                    v.push_back(motion.moves[1].from + (motion.moves[1].to - motion.moves[1].from) * j / n);
                ConvexSolid placed = moving;
                const Pose pose = poseAt(motion, v);
                for (Vec3& p : placed.points) p = pose(p);
                const Nearest near = nearest(placed, fixed);
                sampled = std::min(sampled, near.meets ? -near.depth : near.distance);
            }
        EXPECT_GE(sampled, r.bound - 1e-6) << "round " << round;
        if (r.clearance >= 0) {
            EXPECT_LE(r.clearance, sampled + 1e-3) << "round " << round;
            EXPECT_GE(r.bound, r.clearance - 1.1e-3) << "round " << round << " steps " << r.steps;
        }
    }
}

TEST(Sweep, RangesAreWhereTheCornerPassesTheWall) {
    // A plate along x from the axis to 400: its end is nearer than 50 to the wall at 420 while 400 cos a >
    // 370.
    const ConvexSolid arm = makeBoxSolid({0, -1e-6, 0}, {400, 1e-6, 50});
    const auto found = rangesNearer(endless(), {arm}, {wallAt(420)}, 50, 1e-4);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NEAR(found[0].first, -std::acos(370.0 / 400), 2e-4);
    EXPECT_NEAR(found[0].second, std::acos(370.0 / 400), 2e-4);
}

TEST(Sweep, NothingToCompareIsTold) {
    EXPECT_TRUE(leastOver(endless(), {}, {wallAt(1)}).above);
    EXPECT_TRUE(rangesNearer(elevating(Vec3::Zero(), 0, 1, true), {wallAt(1)}, {wallAt(1)}, 5, 0.1).empty());
    SweepOptions options;
    options.enough = 20;
    const SweepResult far =
        leastOver(endless(), {makeBoxSolid({-10, -10, 0}, {10, 10, 5})}, {wallAt(100)}, options);
    EXPECT_TRUE(far.above);
    EXPECT_GE(far.bound, 20);
}

TEST(Sweep, RingsHoldASolidAboutAnAxis) {
    const Ringed ring = ringedBy(makeBoxSolid({100, -50, 10}, {300, 50, 60}), Vec3::Zero(), Vec3::UnitZ());
    EXPECT_NEAR(ring.inner, 100, 2e-3);
    EXPECT_NEAR(ring.outer, std::hypot(300, 50), 1e-9);
    EXPECT_NEAR(ring.low, 10, 1e-9);
    EXPECT_NEAR(ring.high, 60, 1e-9);
    EXPECT_NEAR(ringGap(ring, {400, 500, 60, 100}), 400 - std::hypot(300, 50), 1e-9);
    EXPECT_NEAR(ringGap(ring, {400, 500, 100, 200}), std::hypot(400 - std::hypot(300, 50), 40), 1e-9);
}

} // namespace
} // namespace slab
