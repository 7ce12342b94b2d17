// The lower edge of random chains against looking at each of them.
#include "core/trial/lower_edge.h"
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <cmath>
#include <random>

namespace slab::trial {

namespace {

double heightAt(const std::vector<OwnedChain>& chains, double x, std::size_t* owner = nullptr) {
    double low = 1e18;
    for (const OwnedChain& c : chains)
        for (std::size_t i = 0; i + 1 < c.points.size(); ++i) {
            const Vec2 &a = c.points[i], &b = c.points[i + 1];
            if (x < a.x() || x > b.x() || b.x() <= a.x()) continue;
            const double z = a.y() + (x - a.x()) / (b.x() - a.x()) * (b.y() - a.y());
            if (z < low) {
                low = z;
                if (owner) *owner = c.owner;
            }
        }
    return low;
}

} // namespace

TEST(LowerEdge, IsTheLowestOfAllChains) {
    std::mt19937_64 random(slab::test::seed(47));
    std::uniform_real_distribution<double> at(0, 1000);
    for (int round = 0; round < 60; ++round) {
        std::vector<OwnedChain> chains(static_cast<std::size_t>(1 + round % 30));
        for (std::size_t c = 0; c < chains.size(); ++c) {
            std::vector<double> xs;
            for (int k = 0; k < 2 + round % 4; ++k) xs.push_back(at(random));
            std::sort(xs.begin(), xs.end());
            for (double x : xs) chains[c].points.emplace_back(x, at(random));
            chains[c].owner = c;
        }
        const auto edge = lowerEdge(chains);
        for (int k = 0; k < 200; ++k) {
            const double x = at(random);
            std::size_t expected = 0, found = 0;
            const double low = heightAt(chains, x, &expected);
            EXPECT_NEAR(heightAt(edge, x, &found), low, 1e-6) << round;
            if (low < 1e17) {
                EXPECT_EQ(found, expected) << round;
            }
        }
        double end = -1;
        for (const OwnedChain& c : edge)
            for (std::size_t i = 0; i + 1 < c.points.size(); ++i) {
                EXPECT_GE(c.points[i].x(), end - 1e-9) << "one beside the other";
                end = c.points[i + 1].x();
            }
    }
}

TEST(LowerEdge, KeepsPointsAndTheFeetOfWhatIsUpright) {
    const auto edge = lowerEdge({{{{5, 3}}, 1}, {{{7, 9}, {7, 2}}, 2}, {{{0, 10}, {10, 10}}, 3}});
    ASSERT_EQ(edge.size(), 3U);
    EXPECT_EQ(edge[0].points, (Ring{{5, 3}}));
    EXPECT_EQ(edge[1].points, (Ring{{7, 2}}));
    EXPECT_EQ(edge[2].points, (Ring{{0, 10}, {10, 10}}));
}

} // namespace slab::trial
