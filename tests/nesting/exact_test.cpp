// The nester's layouts, judged by checkNest, which shares no code or method with it.
#include "shapes.h"

namespace slab {
namespace {

using testing::IsEmpty;

TEST(Exact, RandomProblemsAreSoundWhateverTheShapes) {
    auto random = seeded(20);
    std::size_t placedCopies = 0;
    for (int round = 0; round < 3000 / slowdown; ++round) {
        const NestProblem problem = randomProblem(random);
        const NestResult result = nest(problem, {});
        ASSERT_THAT(checkNest(problem, result), IsEmpty()) << "round " << round;
        placedCopies += countPlaced(result);
    }
    EXPECT_GT(placedCopies, 10000U / slowdown); // most copies fit somewhere
}

TEST(Exact, SearchRoundsStaySound) {
    auto random = seeded(21);
    for (int round = 0; round < 60 / slowdown; ++round) {
        const NestProblem problem = randomProblem(random);
        NestOptions options;
        options.rounds = 3;
        options.seed = random();
        ASSERT_THAT(checkNest(problem, nest(problem, options)), IsEmpty()) << "round " << round;
    }
}

TEST(Exact, APartStandsInTheHoleOfAnother) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100)};
    Polygon ring{box(0, 0, 100, 100), {reversed(box(20, 20, 80, 80))}};
    problem.parts = {partOf("ring", ring), partOf("disc", {box(0, 0, 55, 55), {}})};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    ASSERT_EQ(result.layouts.size(), 1U);
    EXPECT_EQ(result.layouts[0].places.size(), 2U);
    EXPECT_THAT(result.unplaced, IsEmpty());
}

TEST(Exact, AHoleJustAsLargeAsThePartIsUsed) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100)};
    Polygon ring{box(0, 0, 100, 100), {reversed(box(20, 20, 80, 80))}};
    problem.parts = {partOf("ring", ring), partOf("disc", {box(0, 0, 60, 60), {}})};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_EQ(countPlaced(result), 2U);
}

TEST(Exact, AConcavityIsUsed) {
    NestProblem problem;
    problem.strip = 100;
    const Ring channel{Vec2(0, 0),   Vec2(60, 0),  Vec2(60, 20),  Vec2(20, 20),
                       Vec2(20, 80), Vec2(60, 80), Vec2(60, 100), Vec2(0, 100)};
    problem.parts = {partOf("channel", {channel, {}}), partOf("tongue", {box(0, 0, 40, 60), {}})};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_NEAR(result.stripLength, 60, 1e-6);
}

TEST(Exact, SpacingIsKeptAndNotWasted) {
    NestProblem problem;
    problem.sheets = {sheetOf(104, 50)};
    problem.parts = {partOf("half", {box(0, 0, 50, 50), {}}, 2)};
    problem.parts[0].spacing = 3.99;
    const NestResult fits = nest(problem, {});
    EXPECT_THAT(checkNest(problem, fits), IsEmpty());
    EXPECT_EQ(fits.layouts.size(), 1U);
    problem.parts[0].spacing = 4.01;
    const NestResult apart = nest(problem, {});
    EXPECT_THAT(checkNest(problem, apart), IsEmpty());
    EXPECT_EQ(apart.layouts.size(), 2U);
}

TEST(Exact, TrimNarrowsTheSheet) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100)};
    problem.sheets[0].trim = 10;
    problem.parts = {partOf("a", {box(-40, -40, 40, 40), {}}), partOf("b", {box(0, 0, 80.001, 80), {}})};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_EQ(countPlaced(result), 1U);
    ASSERT_EQ(result.unplaced.size(), 1U);
    EXPECT_EQ(result.unplaced[0], (std::pair<int, int>(1, 0)));
}

TEST(Exact, OnHandFirstThenTheCheapest) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100, 9), sheetOf(100, 100, 5), sheetOf(50, 50, 0)};
    problem.sheets[0].onHand = 1;
    problem.sheets[2].limit = 0;
    problem.parts = {partOf("a", {box(0, 0, 90, 90), {}}, 2)};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    ASSERT_EQ(result.layouts.size(), 2U);
    EXPECT_TRUE(result.layouts[0].onHand);
    EXPECT_EQ(result.layouts[0].sheet, 0);
    EXPECT_FALSE(result.layouts[1].onHand);
    EXPECT_EQ(result.layouts[1].sheet, 1);
    EXPECT_DOUBLE_EQ(result.cost, 5);
}

TEST(Exact, StocksDoNotMix) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100), sheetOf(100, 100)};
    problem.sheets[0].stock = "foam";
    problem.sheets[1].stock = "board";
    problem.parts = {partOf("a", {box(0, 0, 10, 10), {}}), partOf("b", {box(0, 0, 10, 10), {}}),
                     partOf("c", {box(0, 0, 10, 10), {}})};
    problem.parts[0].stock = "foam";
    problem.parts[1].stock = "board";
    problem.parts[2].stock = "none of these";
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_EQ(result.layouts.size(), 2U);
    EXPECT_EQ(result.unplaced.size(), 1U);
}

TEST(Exact, AJigsawOfFourGoesBackTogether) {
    NestProblem problem; // a square cut by two slanting lines; corners are exact binary numbers
    problem.strip = 64;
    const Vec2 centre(24, 40), low(16, 0), high(32, 64), left(0, 32), right(64, 48);
    problem.parts = {partOf("a", {Ring{Vec2(0, 0), low, centre, left}, {}}),
                     partOf("b", {Ring{low, Vec2(64, 0), right, centre}, {}}),
                     partOf("c", {Ring{centre, right, Vec2(64, 64), high}, {}}),
                     partOf("d", {Ring{left, centre, high, Vec2(0, 64)}, {}})};
    NestOptions options;
    options.rounds = 300;
    const NestResult result = nest(problem, options);
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_NEAR(result.stripLength, 64, 1e-6);
}

TEST(Exact, NothingComesFromNothing) {
    EXPECT_THAT(nest({}, {}).layouts, IsEmpty());
    NestProblem problem;
    problem.parts = {partOf("a", {box(0, 0, 1, 1), {}})};
    EXPECT_EQ(nest(problem, {}).unplaced.size(), 1U); // no sheet
    problem.sheets = {sheetOf(10, 10)};
    problem.parts.push_back(partOf("line", {Ring{Vec2(0, 0), Vec2(1, 1), Vec2(2, 2)}, {}}));
    problem.parts.push_back(partOf("nan", {Ring{Vec2(0, 0), Vec2(std::nan(""), 1), Vec2(2, 0)}, {}}));
    problem.parts.push_back(partOf("none", {}));
    const NestResult result = nest(problem, {});
    EXPECT_EQ(countPlaced(result), 1U);
    EXPECT_EQ(result.unplaced.size(), 3U);
}

TEST(Exact, StoppedJobsStillGiveASoundLayout) {
    auto random = seeded(22);
    const NestProblem problem = randomProblem(random);
    std::stop_source stop;
    stop.request_stop();
    const NestResult result = nest(problem, {}, Job{stop.get_token(), {}});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_EQ(countPlaced(result), 0U);
}

TEST(Exact, ThreadsDoNotChangeTheResult) {
    auto random = seeded(23);
    for (int round = 0; round < 24 / slowdown; ++round) {
        const NestProblem problem = randomProblem(random);
        NestOptions options;
        options.rounds = 4;
        options.seed = 7;
        const NestResult one = nest(problem, options);
        options.threads = 2;
        ASSERT_EQ(one, nest(problem, options)) << "round " << round;
        options.threads = 5;
        ASSERT_EQ(one, nest(problem, options)) << "round " << round;
    }
}

} // namespace
} // namespace slab
