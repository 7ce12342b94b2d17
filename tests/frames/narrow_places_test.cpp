// Narrow places by closed forms: strips, necks between holes, hourglasses; and corners, which are none.
#include "core/frames/narrow_places.h"
#include "tests/frames/crate.h"
#include <cmath>

namespace slab {
namespace {

Polygon box(const Vec2& min, const Vec2& max) {
    return {{min, {max.x(), min.y()}, max, {min.x(), max.y()}}, {}};
}
Polygon disc(const Vec2& at, double radius, int corners) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double a = 2 * std::numbers::pi * i / corners;
        ring.emplace_back(at + radius * Vec2(std::cos(a), std::sin(a)));
    }
    return {ring, {}};
}
Polygon turnedBy(Polygon p, double angle) {
    const Eigen::Rotation2Dd turn(angle);
    for (Vec2& q : p.outer) q = turn * q;
    for (Ring& hole : p.holes)
        for (Vec2& q : hole) q = turn * q;
    return p;
}

TEST(NarrowPlaces, aStripWithAFreeEndAndOneBetweenBlocks) {
    auto random = seeded(12);
    for (int round = 0; round < 40; ++round) {
        const double width = uniform(random, 4, 30), length = uniform(random, 70, 150),
                     angle = uniform(random, 0, 6), least = 20;
        SCOPED_TRACE(testing::Message() << width << " wide, " << length << " long, at " << angle);
        const Polygon block = box({0, 0}, {200, 100}), strip = box({80, 90}, {80 + width, 100 + length});
        const Polygon horn = turnedBy(unite({block, strip}).front(), angle);
        auto found = frames::narrowPlaces(horn, least);
        if (width > least) {
            EXPECT_TRUE(found.empty());
            continue;
        }
        if (width > least - 0.5) continue; // as good as wide enough
        ASSERT_EQ(found.size(), 1U);
        EXPECT_TRUE(found[0].freeEnd);
        EXPECT_NEAR(found[0].width, width, 1e-2);
        EXPECT_NEAR(found[0].length, length, 0.5);
        const Polygon bridge =
            turnedBy(unite({block, strip, box({0, 100 + length}, {200, 200 + length})}).front(), angle);
        found = frames::narrowPlaces(bridge, least);
        ASSERT_EQ(found.size(), 1U);
        EXPECT_FALSE(found[0].freeEnd);
        EXPECT_NEAR(found[0].width, width, 5e-3);
        EXPECT_NEAR(found[0].length, length, 0.5);
        EXPECT_TRUE(contains(bridge, found[0].at));
    }
}

TEST(NarrowPlaces, betweenHolesAndAnEdge) {
    auto random = seeded(13);
    for (int round = 0; round < 40; ++round) {
        const double first = uniform(random, 15, 40), second = uniform(random, 15, 40),
                     neck = uniform(random, 2, 40), edge = uniform(random, 2, 40), least = 20;
        SCOPED_TRACE(testing::Message() << neck << " between, " << edge << " to the edge, "
                                        << edge + first - second << " beside the other");
        // 4 · n corners lie on the axes, so that the discs are that wide there exactly.
        const Vec2 a(100, edge + first), b = a + Vec2(first + neck + second, 0);
        const Polygon board =
            subtract({box({-200, 0}, {500, 400})}, {disc(a, first, 64), disc(b, second, 64)}).front();
        const auto found = frames::narrowPlaces(board, least);
        std::vector<double> expected;
        if (neck < least - 1.5) expected.push_back(neck);
        if (edge < least - 1.5) expected.push_back(edge);
        if (edge + first - second < least - 1.5) expected.push_back(edge + first - second);
        if (neck > least - 1.5 && neck < least) continue;
        if (edge + first - second < 1 || std::abs(edge - least) < 1.5 ||
            std::abs(edge + first - second - least) < 1.5)
            continue;
        ASSERT_EQ(found.empty(), expected.empty());
        if (expected.empty()) continue;
        // Necks that lie beside each other are told as one.
        EXPECT_NEAR(found.front().width, *std::min_element(expected.begin(), expected.end()), 1e-4);
    }
}

TEST(NarrowPlaces, cornersPointsAndStubsAreNone) {
    EXPECT_TRUE(frames::narrowPlaces(box({0, 0}, {200, 100}), 20).empty());
    EXPECT_TRUE(frames::narrowPlaces({{{0, 0}, {300, 0}, {0, 60}}, {}}, 20).empty()) << "tapers to a point";
    EXPECT_TRUE(
        frames::narrowPlaces(unite({box({0, 0}, {200, 100}), box({50, 90}, {65, 110})}).front(), 20).empty())
        << "a stub 10 mm long";
    EXPECT_TRUE(frames::narrowPlaces(box({0, 0}, {200, 100}), 0).empty());
    EXPECT_TRUE(frames::narrowPlaces({}, 20).empty());
    // A board that is narrow all over.
    const auto whole = frames::narrowPlaces(box({0, 0}, {200, 12}), 20);
    ASSERT_EQ(whole.size(), 1U);
    EXPECT_NEAR(whole[0].width, 12, 1e-2);
    EXPECT_NEAR(whole[0].length, 200, 1e-6);
    EXPECT_FALSE(whole[0].freeEnd);
}

} // namespace
} // namespace slab
