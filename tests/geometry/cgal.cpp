// CGAL (Debian libcgal-dev, headers only) as an outside check of areas, hulls, simplicity and boolean
// operations.
#define CGAL_DISABLE_GMP 1
#include "core/geometry/polygon.h"
#include "tests/geometry/areas.h"
#include "tests/geometry/seed.h"
#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_with_holes_2.h>
#include <CGAL/convex_hull_2.h>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Exact = CGAL::Polygon_2<Kernel>;
using ExactHoles = CGAL::Polygon_with_holes_2<Kernel>;

Exact exact(const Ring& ring) {
    Exact polygon;
    for (const Vec2& p : ring) polygon.push_back({p.x(), p.y()});
    return polygon;
}

double exactArea(const ExactHoles& p) {
    auto sum = p.outer_boundary().area();
    for (auto h = p.holes_begin(); h != p.holes_end(); ++h) sum += h->area();
    return CGAL::to_double(sum);
}

Ring star(std::mt19937_64& random, int corners, const Vec2& centre) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double a = 2 * std::numbers::pi * (i + uniform(random, 0, 0.8)) / corners;
        ring.push_back(centre + uniform(random, 80, 400) * Vec2(std::cos(a), std::sin(a)));
    }
    return ring;
}

} // namespace

TEST(Cgal, areasAndSimplicity) {
    auto random = seeded(51);
    int simple = 0;
    for (int round = 0; round < 200; ++round) {
        Ring ring = star(random, 5 + round % 30, {uniform(random, -1e4, 1e4), 0});
        if (round % 2) std::swap(ring[1], ring[3 + std::size_t(below(random, 2))]);
        const Exact reference = exact(ring);
        EXPECT_NEAR(signedArea(ring), CGAL::to_double(reference.area()), 1e-6);
        EXPECT_EQ(isSimple(ring), reference.is_simple()) << round;
        simple += isSimple(ring) ? 1 : 0;
    }
    EXPECT_GT(simple, 90);
    EXPECT_LT(simple, 190);
}

TEST(Cgal, hulls) {
    auto random = seeded(52);
    for (int round = 0; round < 50; ++round) {
        std::vector<Vec2> points;
        std::vector<Kernel::Point_2> theirs, hull;
        for (int i = 0; i < 40; ++i) {
            points.emplace_back(below(random, 12), below(random, 12)); // many in one line
            theirs.emplace_back(points.back().x(), points.back().y());
        }
        CGAL::convex_hull_2(theirs.begin(), theirs.end(), std::back_inserter(hull));
        EXPECT_EQ(convexHull(points).size(), hull.size());
        Exact reference(hull.begin(), hull.end());
        EXPECT_DOUBLE_EQ(signedArea(convexHull(points)), CGAL::to_double(reference.area()));
    }
}

TEST(Cgal, booleanOperations) {
    auto random = seeded(53);
    for (int round = 0; round < 40 / slowdown; ++round) {
        const Ring a = star(random, 11, {0, 0}), b = star(random, 8, {uniform(random, -300, 300), 100});
        std::vector<ExactHoles> common, rest;
        CGAL::intersection(exact(a), exact(b), std::back_inserter(common));
        CGAL::difference(exact(a), exact(b), std::back_inserter(rest));
        double commonArea = 0, restArea = 0;
        for (const ExactHoles& p : common) commonArea += exactArea(p);
        for (const ExactHoles& p : rest) restArea += exactArea(p);
        // Clipper's grid of 1e-6 mm moves borders of some metres: up to about 1e-2 mm².
        EXPECT_NEAR(sumOf(intersect({{a, {}}}, {{b, {}}})), commonArea, 1e-2);
        EXPECT_NEAR(sumOf(subtract({{a, {}}}, {{b, {}}})), restArea, 1e-2);
        EXPECT_NEAR(sumOf(unite({{a, {}}, {b, {}}})), std::abs(signedArea(b)) + restArea, 1e-2);
    }
}
