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

} // namespace
} // namespace slab
