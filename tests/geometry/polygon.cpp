#include "core/geometry/polygon.h"
#include "core/geometry/triangulate.h"
#include "tests/geometry/areas.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

/// A star-shaped ring around the origin, counter-clockwise: simple by construction.
Ring star(std::mt19937_64& random, int corners, double radius, Vec2 centre = Vec2::Zero()) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * (i + uniform(random, 0, 0.8)) / corners;
        ring.push_back(centre + uniform(random, 0.4, 1) * radius * Vec2(std::cos(angle), std::sin(angle)));
    }
    return ring;
}

Ring square(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

} // namespace

// Area of a regular n-gon of circumradius R: n/2 R² sin(2π/n). Source: textbook formula, e.g. MathWorld
// "Regular Polygon", eq. for area.
TEST(Polygon, areaOfRegularPolygons) {
    for (int n = 3; n < 40; ++n) {
        Ring ring;
        for (int i = 0; i < n; ++i)
            ring.emplace_back(1000 + 250 * std::cos(2 * std::numbers::pi * i / n),
                              -400 + 250 * std::sin(2 * std::numbers::pi * i / n));
        const double expected = n / 2.0 * 250 * 250 * std::sin(2 * std::numbers::pi / n);
        EXPECT_NEAR(signedArea(ring), expected, 1e-9 * expected);
        EXPECT_NEAR(signedArea(reversed(ring)), -expected, 1e-9 * expected);
        EXPECT_NEAR((centroid({ring, {}}) - Vec2(1000, -400)).norm(), 0, 1e-9);
        EXPECT_TRUE(isSimple(ring));
        EXPECT_EQ(convexHull(ring).size(), ring.size());
    }
}

TEST(Polygon, centroidTakesHolesOff) {
    const Polygon p{square(0, 0, 4, 2), {reversed(square(0, 0, 2, 2))}};
    EXPECT_DOUBLE_EQ(area(p), 4);
    EXPECT_NEAR(centroid(p).x(), 3, 1e-12);
    EXPECT_NEAR(centroid(p).y(), 1, 1e-12);
}

TEST(Polygon, containsWithBorderAndHoles) {
    const Polygon p{square(0, 0, 10, 10), {reversed(square(4, 4, 6, 6))}};
    EXPECT_TRUE(contains(p, Vec2(0, 5)));
    EXPECT_TRUE(contains(p, Vec2(4, 5)));
    EXPECT_FALSE(contains(p, Vec2(5, 5)));
    EXPECT_FALSE(contains(p, Vec2(-0.01, 5)));
    EXPECT_TRUE(contains(p, Vec2(-0.01, 5), 0.02));
    EXPECT_TRUE(contains(p, Vec2(4.01, 5), 0.02));
    EXPECT_FALSE(contains(p.outer, Vec2(11, 10), 0.5));
}

TEST(Polygon, simpleOrNot) {
    EXPECT_TRUE(isSimple(square(0, 0, 1, 1)));
    EXPECT_FALSE(isSimple({{0, 0}, {1, 1}, {1, 0}, {0, 1}})) << "bow tie";
    EXPECT_FALSE(isSimple({{0, 0}, {1, 0}}));
    EXPECT_FALSE(isSimple({{0, 0}, {2, 0}, {1, 0}, {1, 1}})) << "spike along an edge";
    EXPECT_FALSE(isSimple({{0, 0}, {2, 0}, {2, 2}, {1, 0}, {0, 2}})) << "corner on an edge";
    EXPECT_FALSE(isSimple({{0, 0}, {0, 0}, {1, 0}, {1, 1}})) << "doubled point";
    EXPECT_FALSE(isSimple({{0, 0}, {std::nan(""), 0}, {1, 1}}));
}

TEST(Polygon, hullHoldsEveryPointAndIsConvex) {
    auto random = seeded();
    for (int round = 0; round < 50; ++round) {
        std::vector<Vec2> points;
        for (int i = 0; i < 60; ++i) points.emplace_back(uniform(random, -9, 9), uniform(random, -9, 9));
        const Ring hull = convexHull(points);
        for (std::size_t i = 0; i < hull.size(); ++i)
            EXPECT_GT(cross2(hull[(i + 1) % hull.size()] - hull[i], hull[(i + 2) % hull.size()] - hull[i]),
                      0);
        for (const Vec2& p : points) EXPECT_TRUE(contains(hull, p, 1e-9));
    }
    EXPECT_EQ(convexHull({{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}, {1, 1}}).size(), 4U);
}

// |A ∪ B| = |A| + |B| − |A ∩ B|, A \ B = A − A ∩ B: inclusion–exclusion, and the grid's bound on rounding.
TEST(PolygonClip, inclusionExclusion) {
    auto random = seeded();
    for (int round = 0; round < 100; ++round) {
        const std::vector<Polygon> a{{star(random, 12, 500), {}}};
        const std::vector<Polygon> b{
            {star(random, 9, 400, {uniform(random, -400, 400), uniform(random, -400, 400)}), {}}};
        const double both = sumOf(intersect(a, b));
        EXPECT_NEAR(sumOf(unite({a[0], b[0]})), area(a[0]) + area(b[0]) - both, 0.02);
        EXPECT_NEAR(sumOf(subtract(a, b)), area(a[0]) - both, 0.02);
    }
}

TEST(PolygonClip, untouchedPointsKeepTheirExactCoordinates) {
    const Ring a = {{0.1, 0.2}, {10.0 / 3, 0.7}, {std::numbers::pi, std::numbers::e}};
    const auto result = unite({{a, {}}});
    ASSERT_EQ(result.size(), 1U);
    for (const Vec2& p : result[0].outer)
        EXPECT_NE(std::find(a.begin(), a.end(), p), a.end()) << p.transpose();
}

TEST(PolygonClip, holesComeOutClockwise) {
    const auto ring = subtract({{square(0, 0, 10, 10), {}}}, {{square(3, 3, 7, 7), {}}});
    ASSERT_EQ(ring.size(), 1U);
    ASSERT_EQ(ring[0].holes.size(), 1U);
    EXPECT_GT(signedArea(ring[0].outer), 0);
    EXPECT_LT(signedArea(ring[0].holes[0]), 0);
    const auto filled = unite({ring[0], {square(4, 4, 5, 5), {}}});
    EXPECT_EQ(filled.size(), 2U) << "an island in the hole is its own polygon";
}

// Mitred offset of a rectangle a × b by d is (a + 2d)(b + 2d).
TEST(PolygonClip, offsetOfRectangle) {
    const Polygon p{square(0, 0, 100, 60), {}};
    EXPECT_NEAR(sumOf(offset(p, 5)), 110 * 70, 1e-6);
    EXPECT_NEAR(sumOf(offset(p, -5)), 90 * 50, 1e-6);
    EXPECT_TRUE(offset(p, -31).empty());
    const Polygon holed{square(0, 0, 100, 100), {reversed(square(40, 40, 60, 60))}};
    EXPECT_NEAR(sumOf(offset(holed, 5)), 110 * 110 - 10 * 10, 1e-6);
}

TEST(PolygonClip, hopelessInputHasNoResult) {
    EXPECT_TRUE(unite({{{{0, 0}, {std::nan(""), 1}, {1, 1}}, {}}}).empty());
    EXPECT_TRUE(unite({{{{0, 0}, {1e300, 1}, {1, 1}}, {}}}).empty());
    EXPECT_TRUE(unite({{{{0, 0}, {1, 1}}, {}}}).empty());
}

// Triangles of a polygon: n + 2·holes − 2 of them (points counted over all rings), same area, all
// counter-clockwise.
TEST(Triangulate, areaAndCount) {
    auto random = seeded();
    for (int round = 0; round < 200; ++round) {
        Polygon p{star(random, 5 + round % 20, 100), {}};
        const int holes = round % 4;
        for (int h = 0; h < holes; ++h) {
            const double angle = 2 * std::numbers::pi * h / holes;
            p.holes.push_back(
                reversed(star(random, 4 + h, 9, Vec2(24 * std::cos(angle), 24 * std::sin(angle)))));
        }
        Ring all = p.outer;
        for (const Ring& hole : p.holes) all.insert(all.end(), hole.begin(), hole.end());
        const auto triangles = triangulate(p);
        EXPECT_EQ(triangles.size(), all.size() + 2 * p.holes.size() - 2);
        double sum = 0;
        for (const auto& [a, b, c] : triangles) {
            const double part = signedArea({all[std::size_t(a)], all[std::size_t(b)], all[std::size_t(c)]});
            EXPECT_GE(part, -1e-9);
            sum += part;
        }
        EXPECT_NEAR(sum, area(p), 1e-8);
    }
}
