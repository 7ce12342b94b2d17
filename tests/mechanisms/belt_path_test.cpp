// The belt's path and length against the open-belt formula, closed forms, Cauchy's perimeter formula and a
// dense hull.
#include "core/mechanisms/belt_path.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <numbers>

using namespace slab;

namespace {

BeltCircle circle(double x, double z, double r, bool outside = false) {
    return {Vec2(x, z), r, outside};
}

double perimeter(const Ring& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) sum += (ring[(i + 1) % ring.size()] - ring[i]).norm();
    return sum;
}

/// Open belt on two pulleys of diameters D > d at distance C. Source: Shigley's Mechanical Engineering
/// Design, chapter on flexible elements (from memory): L = sqrt(4C² − (D − d)²) + ½(D θ_D + d θ_d), θ_d = π −
/// 2 asin((D − d) / 2C), θ_D = π + 2 asin((D − d) / 2C).
double openBelt(double D, double d, double C) {
    const double lean = std::asin((D - d) / (2 * C));
    return std::sqrt(4 * C * C - (D - d) * (D - d)) +
           0.5 * (D * (std::numbers::pi + 2 * lean) + d * (std::numbers::pi - 2 * lean));
}
/// Crossed belt, same source: both angles of wrap are π + 2 asin((D + d) / 2C). An idler outside is half of
/// it.
double crossedRun(double D, double d, double C) {
    return std::sqrt(C * C - (D + d) * (D + d) / 4);
}

/// Cauchy: the perimeter of a convex set is the integral of its support function over all directions.
double cauchyPerimeter(const std::vector<BeltCircle>& circles) {
    constexpr int steps = 50000;
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
        const double a = 2 * std::numbers::pi * (i + 0.5) / steps;
        const Vec2 u(std::cos(a), std::sin(a));
        double support = -1e300;
        for (const BeltCircle& c : circles) support = std::max(support, c.centre.dot(u) + c.radius);
        sum += support;
    }
    return sum * 2 * std::numbers::pi / steps;
}

Ring denseHull(const std::vector<BeltCircle>& circles, int facets) {
    std::vector<Vec2> points;
    for (const BeltCircle& c : circles)
        for (int i = 0; i < facets; ++i) {
            const double a = 2 * std::numbers::pi * i / facets;
            points.push_back(c.centre + c.radius * Vec2(std::cos(a), std::sin(a)));
        }
    return convexHull(points);
}

std::vector<BeltCircle> randomCircles(std::mt19937_64& random) {
    std::vector<BeltCircle> all;
    for (int i = 2 + below(random, 9); i > 0; --i)
        all.push_back(
            circle(uniform(random, -900, 900), uniform(random, -300, 300), uniform(random, 5, 200)));
    return all;
}

} // namespace

TEST(BeltPath, TwoPulleysAreTheOpenBeltFormula) {
    for (const auto& [D, d, C] :
         {std::tuple{300.0, 120.0, 500.0}, {200.0, 200.0, 350.0}, {400.0, 10.0, 196.0}})
        for (const double turned : {0.0, 0.7, 2.9}) {
            const auto path = beltPath(
                {circle(10, 20, D / 2), circle(10 + C * std::cos(turned), 20 + C * std::sin(turned), d / 2)});
            ASSERT_TRUE(path.has_value());
            EXPECT_NEAR(path->length, openBelt(D, d, C), 1e-9 * C) << D << " " << d << " " << C;
            ASSERT_EQ(path->arcs.size(), 2u);
            EXPECT_NEAR(path->arcs[0].sweep + path->arcs[1].sweep, 2 * std::numbers::pi, 1e-12);
        }
}

TEST(BeltPath, EqualWheelsInATriangleAreItsPerimeterAndOneWheelRound) {
    // Steiner's formula for a parallel body: perimeter of the hull of the centres + 2 std::numbers::pi r.
    const std::vector<BeltCircle> wheels = {circle(0, 0, 90), circle(700, 0, 90), circle(250, 400, 90)};
    const double sides = perimeter({wheels[0].centre, wheels[1].centre, wheels[2].centre});
    for (const auto& order : {std::vector{0, 1, 2}, {2, 1, 0}, {1, 0, 2}}) {
        std::vector<BeltCircle> listed;
        for (const int i : order) listed.push_back(wheels[static_cast<std::size_t>(i)]);
        const auto path = beltPath(listed);
        ASSERT_TRUE(path.has_value());
        EXPECT_NEAR(path->length, sides + 2 * std::numbers::pi * 90, 1e-9);
        EXPECT_FALSE(path->reordered) << "three wheels have only one order, two ways round";
    }
}

TEST(BeltPath, ALargeWheelBetweenSmallOnesIsMetTwice) {
    const auto path = beltPath({circle(-400, 0, 20), circle(0, 0, 200), circle(400, 0, 20)});
    ASSERT_TRUE(path.has_value());
    EXPECT_EQ(path->arcs.size(), 4u);
    EXPECT_FALSE(path->reordered);
    EXPECT_TRUE(path->off.empty());
    const double lean = std::asin(180.0 / 400);
    EXPECT_NEAR(path->length,
                4 * std::sqrt(400.0 * 400 - 180 * 180) + 200 * 4 * lean +
                    2 * 20 * (std::numbers::pi - 2 * lean),
                1e-9);
}

TEST(BeltPath, RoadWheelsInARowAllTouchAndOnesThatDoNotAreTold) {
    const auto path =
        beltPath({circle(-500, 150, 80), circle(-300, 60, 60), circle(-100, 60, 60), circle(100, 60, 60),
                  circle(300, 60, 60), circle(500, 150, 80), circle(0, 180, 25)});
    ASSERT_TRUE(path.has_value());
    EXPECT_EQ(path->arcs.size(), 6u);
    ASSERT_EQ(path->off.size(), 1u);
    EXPECT_EQ(path->off[0].wheel, 6);
    EXPECT_NEAR(path->off[0].gap, 150 + 80 - 180 - 25, 1e-9);
    EXPECT_FALSE(path->reordered);
}

TEST(BeltPath, AListThatWouldCrossIsPutInOrderAndSaidSo) {
    const auto path =
        beltPath({circle(0, 0, 50), circle(600, 300, 50), circle(600, 0, 50), circle(0, 300, 50)});
    ASSERT_TRUE(path.has_value());
    EXPECT_TRUE(path->reordered);
    EXPECT_NEAR(path->length, 2 * 600 + 2 * 300 + 2 * std::numbers::pi * 50, 1e-9);
}

TEST(BeltPath, AnIdlerOutsideBendsTheBeltBack) {
    // Two equal wheels, an idler of the same size pressed down between them by h from where it would touch.
    const double C = 800, r = 60, h = 50;
    const std::vector<BeltCircle> wheels = {circle(0, 0, r), circle(C, 0, r),
                                            circle(C / 2, 2 * r - h, r, true)};
    const auto path = beltPath(wheels);
    ASSERT_TRUE(path.has_value());
    const double slope = std::hypot(C / 2, 2 * r - h);
    // Lean of the inner tangent against the line of centres: asin(2r / slope), less that line's own slope.
    const double lean = std::asin(2 * r / slope) - std::atan2(2 * r - h, C / 2);
    EXPECT_NEAR(path->length,
                C + 2 * crossedRun(2 * r, 2 * r, slope) + r * (2 * (std::numbers::pi + lean) + 2 * lean),
                1e-9);
    double turn = 0;
    for (const auto& arc : path->arcs) turn += arc.sweep;
    EXPECT_NEAR(turn, 2 * std::numbers::pi, 1e-12);
    const auto free = beltPath({wheels[0], wheels[1], circle(C / 2, 2 * r + 5, r, true)});
    ASSERT_FALSE(free.has_value());
    EXPECT_EQ(free.error().code, "belt-crosses") << "it does not reach the belt";
    EXPECT_EQ(free.error().where, "2");
}

TEST(BeltPath, EqualsCauchysFormulaAndADenseHullOnRandomWheels) {
    auto random = seeded(71);
    for (int round = 0; round < 200 / slowdown; ++round) {
        const auto circles = randomCircles(random);
        const auto path = beltPath(circles);
        if (!path) {
            EXPECT_EQ(path.error().code, "belt-wheels-few");
            EXPECT_LE(circles.size(), 4u) << "all of many wheels within one is unlikely";
            continue;
        }
        EXPECT_NEAR(path->length, cauchyPerimeter(circles), 1e-6 * path->length);
        const Ring hull = denseHull(circles, 2000);
        EXPECT_LE(perimeter(hull), path->length * (1 + 1e-12));
        EXPECT_NEAR(perimeter(hull), path->length, 1e-5 * path->length);
        double turn = 0;
        for (const auto& arc : path->arcs) {
            EXPECT_GE(arc.sweep, 0);
            turn += arc.sweep;
        }
        EXPECT_NEAR(turn, 2 * std::numbers::pi, 1e-7);
        for (std::size_t i = 0; i < path->runs.size(); ++i) { // runs leave and meet their arcs
            const auto& arc = path->arcs[i];
            const double end = arc.from + arc.sweep;
            EXPECT_NEAR(
                (arc.centre + arc.radius * Vec2(std::cos(end), std::sin(end)) - path->runs[i].from).norm(), 0,
                1e-6);
        }
        EXPECT_NEAR(perimeter(beltLine(*path, 0.005)), path->length, 1e-4 * path->length);
        EXPECT_NEAR(
            (beltPlace(*path, path->length / 3).at - beltPlace(*path, path->length * 4 / 3).at).norm(), 0,
            1e-6);
    }
}

TEST(BeltLinks, OneWheelMovesTheLeastForAWholeNumber) {
    // Two equal wheels: L = 2C + 2 std::numbers::pi r, so the distance for n links of pitch p is (n p − 2
    // std::numbers::pi r) / 2.
    const double r = 100, p = 50;
    const auto links = linksByMoving({circle(0, 0, r), circle(510, 0, r)}, p, 1, Vec2::UnitX());
    ASSERT_TRUE(links.has_value());
    const double n = std::round((2 * 510 + 2 * std::numbers::pi * r) / p);
    EXPECT_EQ(links->links, static_cast<int>(n));
    EXPECT_NEAR(links->moved.x(), (n * p - 2 * std::numbers::pi * r) / 2 - 510, 1e-9);
    EXPECT_NEAR(links->path.length, n * p, 1e-9);
    const auto pitch = linksByPitch({circle(0, 0, r), circle(510, 0, r)}, p);
    ASSERT_TRUE(pitch.has_value());
    EXPECT_EQ(pitch->moved.norm(), 0);
    EXPECT_NEAR(pitch->pitch * pitch->links, 2 * 510 + 2 * std::numbers::pi * r, 1e-9);
}

TEST(BeltLinks, OnRandomWheelsNoLesserMoveDoesIt) {
    auto random = seeded(72);
    int done = 0;
    for (int round = 0; round < 150 / slowdown; ++round) {
        const auto circles = randomCircles(random);
        const double pitch = uniform(random, 10, 60);
        const int wheel = below(random, static_cast<int>(circles.size()));
        const Vec2 way = tighteningWay(circles, wheel);
        EXPECT_NEAR(way.norm(), 1, 1e-12);
        const auto links = linksByMoving(circles, pitch, wheel, way);
        if (!links) continue; // a wheel inside the belt changes nothing
        ++done;
        EXPECT_NEAR(links->path.length, links->links * pitch, 1e-9);
        const double by = links->moved.norm();
        EXPECT_LE(by, 2 * pitch + 1e-9);
        for (int k = -20; k <= 20; ++k) { // the same number of whole links all the way there
            auto other = circles;
            other[static_cast<std::size_t>(wheel)].centre += way * (by * 0.999 * k / 20);
            const auto path = beltPath(other);
            if (!path) break;
            const double whole = path->length / pitch;
            EXPECT_GT(std::abs(whole - std::round(whole)), 1e-9) << "a lesser move would have done";
        }
    }
    EXPECT_GT(done, 60 / slowdown);
}

TEST(BeltPath, RefusesWhatNoBeltGoesRound) {
    const auto code = [](const Expected<BeltPath>& path) { return path ? "" : path.error().code; };
    EXPECT_EQ(code(beltPath({})), "belt-wheels-few");
    EXPECT_EQ(code(beltPath({circle(0, 0, 10)})), "belt-wheels-few");
    EXPECT_EQ(code(beltPath({circle(0, 0, 100), circle(20, 0, 30)})), "belt-wheels-few");
    EXPECT_EQ(code(beltPath({circle(0, 0, 100), circle(0, 0, 100)})), "belt-wheels-few");
    EXPECT_EQ(code(beltPath({circle(0, 0, 0), circle(200, 0, 30)})), "belt-wheel-size");
    EXPECT_EQ(code(beltPath({circle(0, 0, 10), circle(NAN, 0, 30)})), "belt-wheel-size");
    EXPECT_EQ(code(beltPath({circle(0, 0, 50), circle(400, 0, 50), circle(30, 30, 50, true)})),
              "belt-wheels-meet");
    for (const double pitch : {0.0, -5.0, 400.0, double(NAN)}) {
        const auto links = linksByMoving({circle(0, 0, 50), circle(400, 0, 50)}, pitch, 1, Vec2::UnitX());
        EXPECT_EQ(links ? "" : links.error().code, "belt-pitch");
        const auto fitted = linksByPitch({circle(0, 0, 50), circle(400, 0, 50)}, pitch);
        EXPECT_EQ(fitted ? "" : fitted.error().code, "belt-pitch");
    }
    const auto stuck =
        linksByMoving({circle(0, 0, 100), circle(500, 0, 100), circle(250, 0, 20)}, 37, 2, Vec2::UnitX());
    ASSERT_FALSE(stuck.has_value());
    EXPECT_EQ(stuck.error().code, "belt-no-links");
}
