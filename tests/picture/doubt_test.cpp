// Sides that a camera cannot have seen, on synthetic views.
#include "core/picture/doubt.h"
#include "tests/picture/views.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

constexpr double w = 2440, h = 1220;

MarkedRectangle marked(const Mat3& view, double click, std::mt19937_64* random = nullptr) {
    MarkedRectangle r;
    const auto places = rectangle(w, h);
    for (std::size_t i = 0; i < 4; ++i) {
        r.corners[i] = seen(view, places[i]);
        if (random) r.corners[i] += click * normal2(*random);
    }
    r.width = w;
    r.height = h;
    r.picture = {3000, 2000}; // randomView's axis goes through its middle
    r.click = click;
    return r;
}

TEST(RectangleDoubt, TrueSidesAreNotDoubtedWithinTheMarkingError) {
    auto random = seeded(11);
    int doubts = 0;
    constexpr int rounds = 2000;
    for (int i = 0; i < rounds; ++i) {
        const MarkedRectangle r = marked(randomView(random, w, h), 2, &random);
        doubts += doubtOf(r) ? 1 : 0;
    }
    // Lenses of 900 to 1500 px of 3000 are outside of what is usual (a quarter of them); what they see is
    // mostly within the slack all the same.
    std::cout << doubts << " of " << rounds << " doubted\n";
    EXPECT_LT(doubts, rounds / 8);
}

/// Square on: the aspect is what is seen, whatever the lens (closed form).
TEST(RectangleDoubt, SquareOnTheAspectIsSeen) {
    MarkedRectangle r;
    r.corners = {Vec2(1000, 700), Vec2(1800, 700), Vec2(1800, 1100), Vec2(1000, 1100)};
    r.picture = {3000, 2000};
    r.width = 2440;
    r.height = 1220;
    EXPECT_FALSE(doubtOf(r));
    r.width = 2000; // 1.64 to 1 against 2 to 1
    ASSERT_TRUE(doubtOf(r));
    EXPECT_EQ(doubtOf(r)->kind, RectangleDoubt::Kind::sides);
    EXPECT_LT(doubtOf(r)->least, 2);
    EXPECT_GT(doubtOf(r)->least, 1.8);
    EXPECT_GT(doubtOf(r)->most, 2);
    EXPECT_LT(doubtOf(r)->most, 2.2);
    r.width = 1220;
    r.height = 2440;
    ASSERT_TRUE(doubtOf(r));
    EXPECT_EQ(doubtOf(r)->kind, RectangleDoubt::Kind::swapped);
}

TEST(RectangleDoubt, SwappedSidesAreFoundOut) {
    auto random = seeded(12);
    int found = 0, said = 0;
    constexpr int rounds = 500;
    for (int i = 0; i < rounds; ++i) {
        MarkedRectangle r = marked(randomView(random, w, h), 1, &random);
        std::swap(r.width, r.height);
        const auto doubt = doubtOf(r);
        found += doubt ? 1 : 0;
        said += doubt && doubt->kind == RectangleDoubt::Kind::swapped ? 1 : 0;
    }
    std::cout << found << " of " << rounds << " doubted, " << said << " as swapped\n";
    EXPECT_GT(found, rounds * 9 / 10);
    EXPECT_GT(said, rounds * 8 / 10);
}

TEST(RectangleDoubt, ATrapezoidOfTheWorldIsNoRectangle) {
    // Seen square on and slanting to one side: no lens makes that of a rectangle.
    MarkedRectangle r;
    r.corners = {Vec2(1000, 700), Vec2(1800, 700), Vec2(2200, 1100), Vec2(1400, 1100)};
    r.picture = {3000, 2000};
    r.width = 2;
    r.height = 1;
    ASSERT_TRUE(doubtOf(r));
    EXPECT_EQ(doubtOf(r)->kind, RectangleDoubt::Kind::corners);
    r.width = 1; // sides of 800 and 566 px
    r.height = 1.41;
    ASSERT_TRUE(doubtOf(r));
    EXPECT_EQ(doubtOf(r)->kind, RectangleDoubt::Kind::swapped) << "the likelier slip";
}

TEST(RectangleDoubt, WithoutAPictureOrSidesThereIsNothingToDoubt) {
    MarkedRectangle r = {{Vec2(0, 0), Vec2(9, 0), Vec2(9, 9), Vec2(0, 9)}, 5, 1, Vec2::Zero(), 1};
    EXPECT_FALSE(doubtOf(r)) << "the picture's size is not known";
    r.picture = {30, 20};
    r.height = 0;
    EXPECT_FALSE(doubtOf(r));
}

} // namespace
} // namespace slab
