#include "shapes.h"

namespace slab {
namespace {

using testing::IsEmpty;

NestProblem scaledParts(NestProblem problem, double factor) {
    for (NestPart& part : problem.parts) {
        for (Vec2& p : part.shape.outer) p *= factor;
        for (Ring& hole : part.shape.holes)
            for (Vec2& p : hole) p *= factor;
    }
    return problem;
}

NestPlace placeOf(const NestResult& result, const NestPlace& wanted) {
    for (const NestLayout& layout : result.layouts)
        for (const NestPlace& p : layout.places)
            if (p.part == wanted.part && p.copy == wanted.copy) return p;
    return {-1, -1, 0, 0, std::nan(""), false};
}

TEST(Reuse, ShrunkPartsKeepSheetCountAndTurns) {
    auto random = seeded(40);
    for (int round = 0; round < 200 / slowdown; ++round) {
        const NestProblem before = randomProblem(random);
        const NestResult old = nest(before, {});
        const NestProblem now = scaledParts(before, 0.98);
        const auto kept = reuse(now, before, old);
        if (before.strip > 0 && !kept) continue;
        ASSERT_TRUE(kept) << "round " << round;
        EXPECT_TRUE(kept->provisional);
        ASSERT_THAT(checkNest(now, *kept), IsEmpty());
        ASSERT_EQ(kept->layouts.size(), old.layouts.size());
        for (std::size_t k = 0; k < old.layouts.size(); ++k) {
            for (const NestPlace& was : old.layouts[k].places)
                EXPECT_EQ(placeOf(*kept, was).rotation, was.rotation);
        }
    }
}

TEST(Reuse, GrownPartsAreSoundOrRefused) {
    auto random = seeded(41);
    int kept = 0;
    for (int round = 0; round < 300 / slowdown; ++round) {
        const NestProblem before = randomProblem(random);
        const NestResult old = nest(before, {});
        const NestProblem now = scaledParts(before, uniform(random, 1, 1.05));
        const auto result = reuse(now, before, old);
        if (!result) continue;
        ++kept;
        ASSERT_THAT(checkNest(now, *result), IsEmpty()) << "round " << round;
        EXPECT_EQ(countPlaced(*result), countPlaced(old));
    }
    std::printf("kept %d\n", kept);
    EXPECT_GT(kept, 100 / slowdown);
}

// Pushed apart, a mirrored part stays mirrored; nothing is refused.
TEST(Reuse, GrownMirroredPartsArePushedApart) {
    auto random = seeded(44);
    for (int round = 0; round < 40 / slowdown; ++round) {
        NestProblem before;
        before.sheets = {sheetOf(150, 100)};
        NestPart wedge = partOf("wedge", {Ring{Vec2(0, 0), Vec2(40, 0), Vec2(0, 30)}, {}}, 6);
        wedge.flip = true;
        before.parts = {wedge};
        NestResult old;
        NestLayout& sheet = old.layouts.emplace_back();
        for (int i = 0; i < 6; ++i) // mirrored, in two rows
            sheet.places.push_back({0, i, 20.0 + 41 * (i % 3) + uniform(random, 0, 1),
                                    65.0 + 31 * (i / 3) + uniform(random, 0, 1), 0, true});
        old.cost = 1;
        sheet.used = old.density = 6 * 600.0 / 15000;
        ASSERT_THAT(checkNest(before, old), IsEmpty());
        const NestProblem now = scaledParts(before, 1.1);
        const auto kept = reuse(now, before, old);
        ASSERT_TRUE(kept) << "round " << round;
        EXPECT_THAT(checkNest(now, *kept), IsEmpty());
        for (const NestPlace& was : sheet.places) EXPECT_TRUE(placeOf(*kept, was).flipped);
    }
}

TEST(Reuse, UnchangedPartsGiveTheSameLayout) {
    auto random = seeded(42);
    const NestProblem problem = randomProblem(random);
    NestResult old = nest(problem, {});
    auto kept = reuse(problem, problem, old);
    ASSERT_TRUE(kept);
    kept->provisional = false;
    ASSERT_EQ(kept->layouts.size(), old.layouts.size());
    for (std::size_t k = 0; k < old.layouts.size(); ++k)
        EXPECT_EQ(kept->layouts[k].places, old.layouts[k].places);
}

TEST(Reuse, OtherPartsAreRefused) {
    NestProblem before;
    before.sheets = {sheetOf(100, 100)};
    before.parts = {partOf("a", {box(0, 0, 10, 10), {}}, 2)};
    const NestResult old = nest(before, {});
    NestProblem now = before;
    now.parts[0].copies = 3;
    EXPECT_FALSE(reuse(now, before, old));
    now = before;
    now.parts[0].id = "b";
    EXPECT_FALSE(reuse(now, before, old));
    now = before;
    now.parts.push_back(now.parts[0]);
    EXPECT_FALSE(reuse(now, before, old));
    now = before;
    now.sheets.clear();
    EXPECT_FALSE(reuse(now, before, old));
    now = before;
    now.parts[0].shape.outer = box(0, 0, 101, 10);
    EXPECT_FALSE(reuse(now, before, old));
    now.parts[0].shape.outer.clear();
    EXPECT_FALSE(reuse(now, before, old));
}

// Boards that fit no longer are laid anew; those of the other stock stay where they were.
TEST(Follow, AStockThatFailsLeavesTheOthersAlone) {
    NestProblem before;
    before.sheets = {sheetOf(100, 50), sheetOf(100, 50)};
    before.sheets[0].stock = "ply";
    before.sheets[1].stock = "foam";
    before.parts = {partOf("rib", {box(0, 0, 30, 20), {}}, 4), partOf("side", {box(0, 0, 48, 46), {}}, 2)};
    before.parts[0].stock = "ply";
    before.parts[1].stock = "foam";
    const NestResult old = nest(before, {});
    ASSERT_EQ(old.layouts.size(), 2U);
    NestProblem now = before;
    for (Vec2& p : now.parts[1].shape.outer) p *= 1.05; // two do not fit side by side any more
    ASSERT_FALSE(reuse(now, before, old));
    const NestResult result = follow(now, before, old, {});
    EXPECT_THAT(checkNest(now, result), IsEmpty());
    EXPECT_TRUE(result.provisional);
    EXPECT_TRUE(result.unplaced.empty());
    ASSERT_EQ(result.layouts.size(), 3U);
    EXPECT_EQ(result.layouts[0].places, old.layouts[0].places);
    EXPECT_EQ(result.cost, 3);
}

TEST(Follow, RandomProblemsAreSoundWhateverChanges) {
    auto random = seeded(43);
    for (int round = 0; round < 200 / slowdown; ++round) {
        NestProblem before = randomProblem(random);
        const bool strip = before.strip > 0;
        const auto anyStock = [&] { return std::string(1, static_cast<char>('a' + below(random, 3))); };
        for (NestPart& part : before.parts) part.stock = strip ? "" : anyStock();
        for (NestSheet& sheet : before.sheets) sheet.stock = anyStock();
        NestProblem now = scaledParts(before, uniform(random, 0.9, 1.1));
        if (below(random, 3) == 0) now.parts[0].copies = below(random, 4);
        if (below(random, 3) == 0) now.parts.pop_back();
        if (below(random, 5) == 0 && !strip) now.parts[0].stock = anyStock();
        if (below(random, 5) == 0 && !strip) now.sheets.push_back(now.sheets.front());
        const NestResult result = follow(now, before, nest(before, {}), {});
        ASSERT_THAT(checkNest(now, result), IsEmpty()) << "round " << round;
        const NestResult fresh = nest(now, {});
        EXPECT_EQ(result.unplaced.empty(), fresh.unplaced.empty()) << "round " << round;
    }
}

} // namespace
} // namespace slab
