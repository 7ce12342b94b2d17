// Outlines are straightened where edges are too short to follow, and only ever taken away from.
#include "core/frames/clean_outline.h"
#include "tests/frames/crate.h"
#include <numeric>

namespace slab {
namespace {

double areaOfAll(const std::vector<Polygon>& regions) {
    double sum = 0;
    for (const Polygon& p : regions) sum += area(p);
    return sum;
}
/// Lengths of all edges.
std::vector<double> edgesOf(const std::vector<Polygon>& regions) {
    std::vector<double> all;
    for (const Polygon& p : regions) {
        std::vector<Ring> rings = p.holes;
        rings.push_back(p.outer);
        for (const Ring& r : rings)
            for (std::size_t i = 0; i < r.size(); ++i) all.push_back((r[(i + 1) % r.size()] - r[i]).norm());
    }
    return all;
}
double perimeterOf(const std::vector<Polygon>& regions) {
    const std::vector<double> edges = edgesOf(regions);
    return std::accumulate(edges.begin(), edges.end(), 0.0);
}
double shortestOf(const std::vector<Polygon>& regions) {
    double least = 1e9;
    for (const double edge : edgesOf(regions)) least = std::min(least, edge);
    return least;
}
Polygon rectangle(const Vec2& min, const Vec2& max) {
    return {{min, {max.x(), min.y()}, max, {min.x(), max.y()}}, {}};
}

TEST(CleanOutline, stepsChamfersAndDoubleCorners) {
    // A step of 0.2 mm, a corner twice, a chamfer of 0.3 mm: a rectangle less half of the step is left.
    const Polygon odd{{{0, 0}, {100, 0}, {100, 40}, {99.8, 40}, {99.8, 80}, {99.8, 80}, {0.2, 80}, {0, 79.8}},
                      {}};
    const auto clean = frames::withoutShortEdges({odd});
    ASSERT_EQ(clean.size(), 1U);
    EXPECT_EQ(clean[0].outer.size(), 5U);
    EXPECT_GE(shortestOf(clean), frames::leastEdge);
    EXPECT_NEAR(area(odd) - area(clean[0]), 0.2 * 40 / 2 + 0.2 * 79.8 / 2 - 0.02, 5);
    EXPECT_LT(areaOfAll(subtract(clean, {odd})), 1e-6);
    // The end of a slot is not touched, nor is what has no short edge.
    const auto slotted = subtract({rectangle({0, 0}, {100, 80})}, {rectangle({50, 40}, {50.3, 90})});
    EXPECT_EQ(frames::withoutShortEdges(slotted), slotted);
    EXPECT_TRUE(frames::withoutShortEdges({{{{0, 0}, {0.1, 0}, {0, 0.1}}, {}}}).empty());
}

TEST(CleanOutline, slivers) {
    // 2.9 mm wide goes, 3.1 mm stays as it is.
    const Polygon block = rectangle({0, 0}, {100, 80});
    const auto with = [&](double width) { return unite({block, rectangle({20, 0}, {20 + width, 200})}); };
    const auto gone = frames::withoutShortEdges(frames::withoutSlivers(with(2.9)));
    ASSERT_EQ(gone.size(), 1U);
    EXPECT_EQ(gone[0].outer.size(), 4U) << "no stub";
    EXPECT_NEAR(area(gone[0]), 8000, 0.1);
    EXPECT_NEAR(areaOfAll(frames::withoutSlivers(with(3.1))), areaOfAll(with(3.1)), 1e-4);
}

TEST(CleanOutline, boardsCutByManySolidsHaveNoShortEdge) {
    auto random = seeded(404);
    for (int round = 0; round < 60; ++round) {
        std::vector<Polygon> cut{rectangle({0, 0}, {600, 400})}, taken;
        const int count = 3 + static_cast<int>(below(random, 30));
        for (int i = 0; i < count; ++i) {
            const Vec2 at(uniform(random, -50, 650), uniform(random, -50, 450));
            if (below(random, 2) == 0) {
                const Vec2 size(uniform(random, 5, 120), uniform(random, 5, 120));
                taken.push_back(rectangle(at, at + size));
            } else {
                Ring ring;
                const int n = 3 + static_cast<int>(below(random, 40));
                const double radius = uniform(random, 5, 70);
                for (int k = 0; k < n; ++k) {
                    const double a = 2 * std::numbers::pi * k / n;
                    ring.emplace_back(at + radius * Vec2(std::cos(a), std::sin(a)));
                }
                taken.push_back({ring, {}});
            }
        }
        cut = subtract(cut, unite(taken));
        const auto kept = frames::withoutSlivers(cut);
        const auto clean = frames::withoutShortEdges(kept);
        SCOPED_TRACE(testing::Message() << "round " << round);
        EXPECT_GE(shortestOf(clean), frames::leastEdge - 1e-9);
        EXPECT_LT(areaOfAll(subtract(clean, cut)), 1e-3) << "nothing is added";
        const double lost = areaOfAll(kept) - areaOfAll(clean);
        EXPECT_GE(lost, -1e-3);
        EXPECT_LE(lost, frames::leastEdge / 2 * perimeterOf(kept));
        for (const Polygon& p : clean) {
            EXPECT_TRUE(isSimple(p.outer));
            for (const Ring& hole : p.holes) EXPECT_TRUE(isSimple(hole));
        }
    }
}

} // namespace
} // namespace slab
