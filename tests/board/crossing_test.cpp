// Outlines that cross themselves are found where they do.
#include "core/board/crossings.h"
#include "core/geometry/polygon.h"
#include "tests/board/make.h"
#include "tests/geometry/seed.h"

using namespace slab;
using namespace slab::test;

namespace {

Project plateOf(const Ring& ring) {
    Project p;
    p.units = "mm";
    PlateShape plate;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        OutlinePoint o;
        o.name = "p" + std::to_string(i + 1);
        o.x = printExact(ring[i].x(), Unit::mm);
        o.y = printExact(ring[i].y(), Unit::mm);
        plate.outline.push_back(o);
    }
    Form form;
    form.name = "fin";
    form.shape = plate;
    p.forms = {form};
    return p;
}

std::vector<BoardCrossing> inPlan(const Project& p) {
    std::vector<BoardCrossing> all;
    for (const BoardCrossing& c : crossingsOf(sceneOf(p)))
        if (c.view == BoardView::plan) all.push_back(c);
    return all;
}

} // namespace

TEST(Crossings, areWhereTheDiagonalsMeet) {
    EXPECT_TRUE(crossingsOf(sceneOf(boat())).empty()) << "an outline in order";
    // Two corners of a rectangle exchanged: two sides become its diagonals, which halve each other.
    const auto found = inPlan(plateOf({{0, 0}, {400, 0}, {0, 300}, {400, 300}}));
    ASSERT_EQ(found.size(), 1u);
    EXPECT_LT((found[0].at - Vec2(200, 150)).norm(), 1e-6);
    EXPECT_EQ(found[0].form, 0);
    EXPECT_NE(found[0].first, found[0].second);
    // A profile's, from the side only.
    Project p = boat();
    auto& outline = std::get<ProfileShape>(p.forms[0].shape).outline;
    std::swap(outline[2], outline[3]);
    std::swap(outline[1], outline[2]);
    const auto hull = crossingsOf(sceneOf(p));
    ASSERT_FALSE(hull.empty());
    for (const BoardCrossing& c : hull) EXPECT_EQ(c.view, BoardView::side);
}

TEST(Crossings, areThereExactlyWhereAnOutlineIsNotSimple) {
    const std::uint64_t seed = testSeed(11);
    std::mt19937_64 random(seed);
    int crossed = 0;
    for (int round = 0; round < 300; ++round) {
        Ring ring;
        const int n = 4 + round % 5;
        for (int i = 0; i < n; ++i) ring.emplace_back(uniform(random, 0, 900), uniform(random, 0, 900));
        const bool found = !inPlan(plateOf(ring)).empty();
        EXPECT_EQ(found, !isSimple(ring)) << "seed " << seed << " round " << round;
        crossed += found ? 1 : 0;
    }
    EXPECT_GT(crossed, 50);
    EXPECT_LT(crossed, 290);
}
