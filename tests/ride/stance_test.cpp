// Wheel loads against closed forms, and against the conditions that make them the only ones.
#include "core/geometry/polygon.h"
#include "core/ride/stance.h"
#include "tests/geometry/seed.h"
#include <Eigen/QR>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::ride;

namespace {

constexpr double degree = std::numbers::pi / 180;

/// Wheelbase and track centred on y = 0, rear axle at x = 0: rear port, rear starboard, front starboard,
/// front port.
Stance fourWheels(double base, double track, double mass, const Vec3& centre) {
    return {{{0, track / 2}, {0, -track / 2}, {base, -track / 2}, {base, track / 2}}, mass, centre};
}

Stance anyStance(std::mt19937_64& random, int wheels) {
    Stance out;
    for (int i = 0; i < wheels; ++i)
        out.wheels.emplace_back(uniform(random, -600, 600), uniform(random, -400, 400));
    out.mass = uniform(random, 40, 300);
    out.centre = {uniform(random, -400, 400), uniform(random, -250, 250), uniform(random, 200, 900)};
    return out;
}

Vec3 pullOf(const Slope& slope, const Turn& turn = {}) {
    return pullOn(slope, turn).value();
}

/// Forces and moments about the origin that are left over, N and N·mm.
Vec3 leftOver(const Stance& stance, const std::vector<double>& loads, const Vec3& pull) {
    const Vec3 force = stance.mass * pull / 1000;
    Vec3 sum(0, 0, force.z());
    const Vec3 moment = stance.centre.cross(force);
    sum.x() = moment.x();
    sum.y() = moment.y();
    for (std::size_t i = 0; i < loads.size(); ++i)
        sum += loads[i] * Vec3(stance.wheels[i].y(), -stance.wheels[i].x(), 1);
    return sum;
}

} // namespace

TEST(WheelLoads, ExampleCOfTheTable) {
    // L 0.9 m, centre 0.35 ahead of the rear axle, 0.60 high, 165 kg (computed worked example)
    const Stance stance = fourWheels(900, 500, 165, {350, 0, 600});
    struct Row {
        double slope, front, rear;
    };
    for (const Row& row : {Row{0, 629.3, 988.8}, Row{std::atan(1 / 12.0), 537.5, 1075.0},
                           Row{std::atan(1 / 8.0), 490.6, 1115.0}, Row{10 * degree, 432.4, 1161.1}}) {
        const auto loads = wheelLoads(stance, pullOf({row.slope, 0}));
        ASSERT_TRUE(loads);
        ASSERT_TRUE(loads->stands);
        EXPECT_NEAR(loads->loads[2] + loads->loads[3], row.front, 0.06) << row.slope;
        EXPECT_NEAR(loads->loads[0] + loads->loads[1], row.rear, 0.06) << row.slope;
        EXPECT_NEAR(loads->loads[0], loads->loads[1], 1e-9);
    }
    // 38.9 % in front on the level; the front load reaches 0 at atan(0.35 / 0.6)
    const double tip = std::atan(0.35 / 0.6);
    const auto last = wheelLoads(stance, pullOf({tip - 1e-9, 0}));
    ASSERT_TRUE(last && last->stands);
    EXPECT_NEAR(last->loads[2] + last->loads[3], 0, 1e-4);
    EXPECT_FALSE(wheelLoads(stance, pullOf({tip + 1e-6, 0}))->stands);
}

TEST(WheelLoads, FourAreSharedAsAFootingIs) {
    // rigid rectangular footing: N = W/4 (1 ± e_x / (L/2) ± e_y / (t/2)), while none is below 0
    const double ex = 60, ey = -40;
    const Stance stance = fourWheels(900, 500, 100, {450 + ex, ey, 500});
    const double weight = 100 * 9.80665;
    const auto loads = wheelLoads(stance);
    ASSERT_TRUE(loads && loads->stands);
    for (std::size_t i = 0; i < 4; ++i) {
        const double sx = stance.wheels[i].x() > 450 ? 1 : -1, sy = stance.wheels[i].y() > 0 ? 1 : -1;
        EXPECT_NEAR(loads->loads[i], weight / 4 * (1 + sx * ex / 450 + sy * ey / 250), 1e-9) << i;
        EXPECT_FALSE(loads->lifted[i]);
    }
}

TEST(WheelLoads, AWheelLiftsBeforeItPulls) {
    // the footing would want W/4 (1 - 0.7 - 0.6) < 0 at the rear port wheel: three carry, and they are
    // determinate
    const Stance stance = fourWheels(900, 500, 100, {450 + 0.7 * 450, -0.6 * 250, 500});
    const auto loads = wheelLoads(stance);
    ASSERT_TRUE(loads && loads->stands);
    EXPECT_TRUE(loads->lifted[0]);
    EXPECT_EQ(loads->loads[0], 0);
    const double weight = 100 * 9.80665;
    EXPECT_NEAR(loads->loads[1], weight * 0.15, 1e-9);
    EXPECT_NEAR(loads->loads[3], weight * 0.20, 1e-9);
    EXPECT_NEAR(loads->loads[2], weight * 0.65, 1e-9);
}

TEST(WheelLoads, ThreeByBalanceAlone) {
    // one front, two rear: the front carries x / L of it, whatever the height on the level
    const Stance stance{{{0, 250}, {0, -250}, {900, 0}}, 120, {300, 50, 550}};
    const auto loads = wheelLoads(stance);
    ASSERT_TRUE(loads && loads->stands);
    const double weight = 120 * 9.80665;
    EXPECT_NEAR(loads->loads[2], weight / 3, 1e-9);
    EXPECT_NEAR(loads->loads[0], weight * (1 / 3.0 + 50 / 500.0), 1e-9);
    EXPECT_NEAR(loads->loads[1], weight * (1 / 3.0 - 50 / 500.0), 1e-9);
}

TEST(WheelLoads, KeepTheBalanceAndTheContact) {
    auto random = seeded(43);
    int stood = 0, fell = 0, lifts = 0;
    for (int round = 0; round < 3000 / slowdown; ++round) {
        const Stance stance = anyStance(random, 3 + below(random, 4));
        if (!checkStance(stance)) continue;
        const Vec3 pull = pullOf({uniform(random, 0, 0.3), uniform(random, 0, 6.3)},
                                 {uniform(random, 0, 2000), uniform(random, 0, 1) < 0.5 ? 3000.0 : -3000.0});
        const auto got = wheelLoads(stance, pull);
        ASSERT_TRUE(got);
        const Vec2 at = (stance.centre - pull * (stance.centre.z() / pull.z())).head<2>();
        const bool inside = contains(convexHull(stance.wheels), at);
        EXPECT_EQ(got->stands, inside);
        if (!got->stands) {
            ++fell;
            continue;
        }
        ++stood;
        const double weight = stance.mass * -pull.z() / 1000;
        const Vec3 left = leftOver(stance, got->loads, pull);
        EXPECT_NEAR(left.norm(), 0, 1e-7 * weight * 1000);
        // one rigid plane of deflections: loads of those that carry lie on it, those that lift are at or
        // above 0
        Eigen::MatrixXd rows(static_cast<Eigen::Index>(stance.wheels.size()), 3);
        Eigen::VectorXd loads(rows.rows());
        Eigen::Index used = 0;
        for (std::size_t i = 0; i < stance.wheels.size(); ++i) {
            EXPECT_GE(got->loads[i], 0);
            if (got->lifted[i]) continue;
            rows.row(used) << 1, stance.wheels[i].x() / 500, stance.wheels[i].y() / 500;
            loads[used++] = got->loads[i];
        }
        if (used < 3) continue;
        const Eigen::MatrixXd some = rows.topRows(used);
        const Eigen::VectorXd q = some.colPivHouseholderQr().solve(loads.head(used));
        EXPECT_NEAR((some * q - loads.head(used)).norm(), 0, 1e-6 * weight);
        for (std::size_t i = 0; i < stance.wheels.size(); ++i) {
            if (!got->lifted[i]) continue;
            ++lifts;
            const double push = q[0] + q[1] * stance.wheels[i].x() / 500 + q[2] * stance.wheels[i].y() / 500;
            EXPECT_LE(push, 1e-6 * weight);
        }
    }
    std::printf("stood %d, fell %d, lifted wheels %d\n", stood, fell, lifts);
    EXPECT_GT(stood, 200 / slowdown);
    EXPECT_GT(fell, 200 / slowdown);
    EXPECT_GT(lifts, 30 / slowdown);
}

TEST(WheelLoads, DoNotDependOnThePlaceOfTheOrigin) {
    auto random = seeded(44);
    for (int round = 0; round < 200 / slowdown; ++round) {
        Stance stance = anyStance(random, 4);
        if (!checkStance(stance)) continue;
        const auto one = wheelLoads(stance);
        const Vec2 by(uniform(random, -1e4, 1e4), uniform(random, -1e4, 1e4));
        for (Vec2& wheel : stance.wheels) wheel += by;
        stance.centre.head<2>() += by;
        const auto two = wheelLoads(stance);
        ASSERT_TRUE(one && two);
        ASSERT_EQ(one->stands, two->stands);
        for (std::size_t i = 0; i < one->loads.size(); ++i) EXPECT_NEAR(one->loads[i], two->loads[i], 1e-6);
    }
}

TEST(WheelLoads, WorstHeadings) {
    // symmetric: W/4 cos s (1 ± 2 h tan s (cos a / L + sin a / t)), extreme where tan a = L / t
    const double base = 900, track = 500, height = 400, slope = 5 * degree;
    const Stance stance = fourWheels(base, track, 120, {450, 0, height});
    const auto ranges = loadsOverHeadings(stance, slope);
    ASSERT_TRUE(ranges);
    const double quarter = 120 * 9.80665 / 4 * std::cos(slope);
    const double swing = 2 * height * std::tan(slope) * std::hypot(1 / base, 1 / track);
    for (const LoadRange& range : *ranges) {
        EXPECT_NEAR(range.most, quarter * (1 + swing), 1e-6);
        EXPECT_NEAR(range.least, quarter * (1 - swing), 1e-6);
    }
    EXPECT_NEAR((*ranges)[3].leastHeading, std::atan2(base, track),
                1e-4); // front port lightest: nose and port up
    EXPECT_EQ(loadsOverHeadings(stance, 35 * degree).error().code, "tips");
    EXPECT_EQ(loadsOverHeadings(stance, -1).error().code, "out-of-range");
}

TEST(WheelLoads, Refusals) {
    const Stance good = fourWheels(900, 500, 120, {450, 0, 400});
    Stance bad = good;
    bad.wheels.resize(2);
    EXPECT_EQ(wheelLoads(bad).error().code, "wheels-few");
    bad.wheels = {{0, 0}, {1, 1}, {2, 2}};
    EXPECT_EQ(wheelLoads(bad).error().code, "wheels-in-line");
    bad = good;
    bad.centre.z() = 0;
    EXPECT_EQ(wheelLoads(bad).error().code, "out-of-range");
    bad = good;
    bad.mass = NAN;
    EXPECT_EQ(wheelLoads(bad).error().code, "out-of-range");
    EXPECT_EQ(wheelLoads(good, {0, 0, 1}).error().code, "out-of-range");
    EXPECT_EQ(pullOn({-0.1, 0}).error().code, "out-of-range");
    EXPECT_EQ(pullOn({2, 0}).error().code, "out-of-range");
    EXPECT_EQ(pullOn({}, {-1, 5}).error().code, "out-of-range");
    EXPECT_EQ(pullOn({}, {1, 0}).error().code, "out-of-range");
}

TEST(WheelLoads, Rated) {
    // 300 lb = 136 kg rated (typical powered chair, from memory)
    const auto rating = ratedLoad(85 + 25, 136);
    ASSERT_TRUE(rating);
    EXPECT_TRUE(rating->holds());
    EXPECT_NEAR(rating->spare(), 26, 1e-12);
    EXPECT_FALSE(ratedLoad(140, 136)->holds());
    EXPECT_EQ(ratedLoad(100, 0).error().code, "out-of-range");
    EXPECT_EQ(ratedLoad(-1, 136).error().code, "out-of-range");
}
