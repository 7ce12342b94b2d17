// The deepest place of what meets: a closed form, and a dense search (brute force) beside it.
#include "core/mechanisms/sweep_deepest.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

Move turnAbout(const Vec3& at, const Vec3& axis, double from, double to) {
    Move m;
    m.at = at;
    m.axis = axis;
    m.from = from;
    m.to = to;
    return m;
}
SweepResult seenSoon(const Motion& motion, const std::vector<ConvexSolid>& moving,
                     const std::vector<ConvexSolid>& fixed) {
    SweepOptions options;
    options.stepsOnceMet = 20;
    return leastOver(motion, moving, fixed, options);
}
/// A plate of the yz plane in n by n cells.
std::vector<ConvexSolid> cellsAt(double x, double thickness, double size, int n) {
    std::vector<ConvexSolid> cells;
    const double step = size / n;
    for (int i = 0; i < n; ++i)
        for (int k = 0; k < n; ++k) {
            const Vec3 low(x, -size / 2 + i * step, -size / 2 + k * step);
            cells.push_back(makeBoxSolid(low, low + Vec3(thickness, step, step)));
        }
    return cells;
}

} // namespace

// The end of a boom about the origin, a ball of 40 at 600, reaches 640 at most; the wall begins at 610.
TEST(SweepDeepest, ABoomInAWallOfManyCellsByTheCircleOfItsEnd) {
    const Motion motion{"boom",
                        {turnAbout(Vec3::Zero(), -Vec3::UnitY(), -0.3, 0.9),
                         turnAbout(Vec3::Zero(), Vec3::UnitZ(), -1, 1.4)}};
    const std::vector<ConvexSolid> ball{{ConvexSolid::Kind::hull, {Vec3(600, 0, 0)}, 40}};
    const auto wall = cellsAt(610, 300, 1200, 8);
    const SweepResult seen = seenSoon(motion, ball, wall);
    ASSERT_LT(seen.clearance, 0);
    const SweepResult deep = deepest(motion, ball, wall, seen, 4000);
    EXPECT_LE(deep.clearance, -30 * 0.97);
    EXPECT_GE(deep.clearance, -30 - 1e-6);
    EXPECT_LE(deep.bound, deep.clearance);
    EXPECT_NEAR(deep.at[0], 0, 0.1);
    EXPECT_NEAR(deep.at[1], 0, 0.1);
}

TEST(SweepDeepest, AsDeepAsADenseSearchFinds) {
    auto random = seeded(91);
    for (int round = 0; round < 12; ++round) {
        const double reach = uniform(random, 300, 900), thick = uniform(random, 20, 90);
        const Motion motion{"boom",
                            {turnAbout(Vec3::Zero(), -Vec3::UnitY(), uniform(random, -0.5, 0), 0.8),
                             turnAbout(Vec3::Zero(), Vec3::UnitZ(), -1.2, uniform(random, 0.2, 1.4))}};
        const std::vector<ConvexSolid> boom{makeBoxSolid({0, -thick, -thick}, {reach, thick, thick})};
        const auto wall = cellsAt(uniform(random, 0.6, 0.9) * reach, uniform(random, 6, 80), 700, 4);
        const SweepResult deep = deepest(motion, boom, wall, seenSoon(motion, boom, wall), 8000);
        double most = 0;
        constexpr int steps = 40;
        for (int i = 0; i <= steps; ++i)
            for (int k = 0; k <= steps; ++k) {
                const auto at = [](const Move& m, int n) { return m.from + (m.to - m.from) * n / steps; };
                const Pose pose = poseAt(motion, {at(motion.moves[0], i), at(motion.moves[1], k)});
                ConvexSolid placed = boom.front();
                for (Vec3& p : placed.points) p = pose(p);
                for (const ConvexSolid& cell : wall) {
                    const Nearest n = nearest(placed, cell);
                    if (n.meets) most = std::max(most, n.depth);
                }
            }
        EXPECT_GE(-deep.clearance, 0.95 * most) << round;
    }
}

// What does not meet, or does not move, stays as it was seen.
TEST(SweepDeepest, NothingToLookFor) {
    const std::vector<ConvexSolid> ball{{ConvexSolid::Kind::hull, {Vec3(600, 0, 0)}, 40}};
    const Motion motion{"boom", {turnAbout(Vec3::Zero(), Vec3::UnitZ(), -1, 1)}};
    const auto far = cellsAt(900, 100, 400, 2);
    const SweepResult seen = seenSoon(motion, ball, far);
    EXPECT_EQ(deepest(motion, ball, far, seen, 1000), seen);
}

} // namespace slab
