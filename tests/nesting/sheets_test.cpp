// Which sheets are opened, what lies in large holes, and what a search gains on sheets.
#include "core/nesting/nofit.h"
#include "shapes.h"
#include "tests/nesting/taken.h"

namespace slab {
namespace {

using testing::IsEmpty;

/// What straight cuts leave over, one large piece rather than several: Σ offcut² / sheet, mm².
double offcuts(const NestProblem& problem, const NestResult& result) {
    double sum = 0;
    for (const NestLayout& layout : result.layouts) {
        const NestSheet& sheet = problem.sheets[static_cast<std::size_t>(layout.sheet)];
        const double size = sheet.length * sheet.width;
        const double taken = takenOf(problem, layout);
        sum += (size - taken) * (size - taken) / size;
    }
    return sum;
}

Ring circle(Vec2 centre, double radius, int corners) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * i / corners;
        ring.emplace_back(centre.x() + radius * std::cos(angle), centre.y() + radius * std::sin(angle));
    }
    return ring;
}

TEST(QuickSheets, ALargeRoundHoleHoldsAPart) {
    for (const int corners : {12, 76}) {
        NestProblem problem;
        problem.sheets = {sheetOf(1000, 1000)};
        const Polygon frame{box(0, 0, 990, 990), {reversed(circle(Vec2(495, 495), 450, corners))}};
        problem.parts = {partOf("frame", frame), partOf("panel", {box(0, 0, 480, 400), {}}, 5)};
        for (NestPart& part : problem.parts) part.spacing = 3;
        const NestResult result = nest(problem, {});
        EXPECT_THAT(checkNest(problem, result), IsEmpty());
        EXPECT_EQ(result.refusals, 0);
        EXPECT_EQ(result.layouts.size(), 2U) << corners; // four panels on a sheet, one in the hole
        ASSERT_FALSE(result.layouts.empty());
        EXPECT_EQ(result.layouts.front().places.size(), 2U) << corners;
    }
}

TEST(QuickSheets, ReuseKeepsWhatLiesInAHole) {
    NestProblem problem;
    problem.sheets = {sheetOf(1000, 1000)};
    const Polygon frame{box(0, 0, 900, 900), {reversed(box(100, 100, 800, 800))}};
    problem.parts = {partOf("frame", frame), partOf("panel", {box(0, 0, 600, 600), {}})};
    const NestResult first = nest(problem, {});
    ASSERT_EQ(first.layouts.size(), 1U);
    NestProblem larger = problem;
    for (NestPart& part : larger.parts) {
        for (Vec2& p : part.shape.outer) p *= 1.1;
        for (Ring& hole : part.shape.holes)
            for (Vec2& p : hole) p *= 1.1;
    }
    const auto kept = reuse(larger, problem, first);
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->layouts.size(), 1U);
    EXPECT_THAT(checkNest(larger, *kept), IsEmpty());
}

TEST(Exchange, TheLastSheetBecomesASmallerOne) {
    NestProblem problem; // whole sheets are the better price for their area, yet one piece fits a cheap half
    problem.sheets = {sheetOf(100, 100, 10), sheetOf(50, 100, 6), sheetOf(50, 100, 7)};
    problem.parts = {partOf("large", {box(0, 0, 95, 95), {}}, 2), partOf("small", {box(0, 0, 40, 80), {}})};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_THAT(result.unplaced, IsEmpty());
    EXPECT_DOUBLE_EQ(result.cost, 26);
    EXPECT_EQ(result.layouts.size(), 3U);
}

TEST(Exchange, PartsAreLaidAnewWhereTheirPlacesDoNotFit) {
    NestProblem problem; // on the whole sheet the pair stands one above the other
    problem.sheets = {sheetOf(60, 200, 10), sheetOf(120, 60, 9)};
    problem.parts = {partOf("pair", {box(0, 0, 55, 55), {}}, 2)};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    ASSERT_EQ(result.layouts.size(), 1U);
    EXPECT_EQ(result.layouts.front().sheet, 1);
    EXPECT_DOUBLE_EQ(result.cost, 9);
}

TEST(Exchange, ALimitIsKept) {
    NestProblem problem;
    problem.sheets = {sheetOf(100, 100, 10), sheetOf(50, 100, 6)};
    problem.sheets[1].limit = 1;
    problem.parts = {partOf("small", {box(0, 0, 45, 90), {}}, 5)};
    const NestResult result = nest(problem, {});
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    EXPECT_DOUBLE_EQ(result.cost, 26);
}

TEST(Exchange, WhatIsOnHandIsTakenWhereASearchFreesIt) {
    auto random = seeded(51);
    for (int round = 0; round < 40 / slowdown; ++round) {
        NestProblem problem = randomProblem(random);
        problem.strip = 0;
        if (problem.sheets.empty()) problem.sheets = {sheetOf(150, 120, 5)};
        problem.sheets.push_back(sheetOf(100, 90, 2));
        problem.sheets.back().onHand = 1;
        problem.sheets.back().limit = 0;
        const NestResult quick = nest(problem, {});
        NestOptions options;
        options.rounds = 2;
        options.seed = random();
        const NestResult searched = nest(problem, options);
        ASSERT_THAT(checkNest(problem, searched), IsEmpty()) << "round " << round;
        ASSERT_EQ(searched.refusals, 0) << "round " << round;
        ASSERT_LE(searched.unplaced.size(), quick.unplaced.size()) << "round " << round;
        const bool asMany = searched.unplaced.size() == quick.unplaced.size();
        ASSERT_TRUE(!asMany || searched.cost <= quick.cost) << "round " << round;
    }
}

TEST(SheetSearch, OffcutsGrow) {
    // Frames, wedges and strips on two stocks: what one search gains shows in each.
    auto random = seeded(52);
    double before = 0, after = 0;
    for (int round = 0; round < 6; ++round) {
        NestProblem problem;
        for (const char* stock : {"foam", "board"}) {
            problem.sheets.push_back(sheetOf(300, 200));
            problem.sheets.back().stock = stock;
            for (int i = 0; i < 4; ++i) {
                NestPart part =
                    partOf(stock + std::to_string(i), randomShape(random, uniform(random, 40, 90)), 2, {});
                part.stock = stock;
                part.spacing = 2;
                problem.parts.push_back(std::move(part));
            }
        }
        const NestResult quick = nest(problem, {});
        NestOptions options;
        options.rounds = 4;
        const NestResult searched = nest(problem, options);
        ASSERT_THAT(checkNest(problem, searched), IsEmpty()) << "round " << round;
        ASSERT_LE(searched.layouts.size(), quick.layouts.size()) << "round " << round;
        before += offcuts(problem, quick);
        after += offcuts(problem, searched);
    }
    EXPECT_GT(after, before * 1.02);
}

/// The same answer at random points, apart from those within rounding of the border.
void expectSame(const nesting::NoFit& a, const nesting::NoFit& b, std::mt19937_64& random) {
    constexpr double beside = 1e-6;
    for (int k = 0; k < 40; ++k) {
        const nesting::Pt p{uniform(random, a.box.minX, a.box.maxX), uniform(random, a.box.minY, a.box.maxY)};
        if (nesting::penetration(a, p, beside) == nesting::penetration(b, p, beside)) continue;
        EXPECT_NEAR(nesting::penetration(a, p, 1e-9), nesting::penetration(b, p, 1e-9), 3e-6);
    }
}

TEST(NoFitCache, QuarterTurnsAreWhatWouldBeMadeAfresh) {
    auto random = seeded(53);
    for (int round = 0; round < 16 / slowdown; ++round) {
        NestProblem problem = randomProblem(random);
        problem.parts.resize(2);
        const double quarter = std::numbers::pi / 2;
        problem.parts[0].rotations = {0,           quarter, 2 * quarter,  0,
                                      5 * quarter, 0.3,     0.3 + quarter}; // some twice
        const nesting::Library library = nesting::makeLibrary(problem, {8, false});
        nesting::NoFitCache cache(library);
        const int count = static_cast<int>(library.oriented.size());
        for (int a = 0; a < count; ++a)
            for (int b = 0; b < count; ++b)
                expectSame(cache.get(a, b),
                           nesting::makeNoFit(library.oriented[static_cast<std::size_t>(a)],
                                              library.oriented[static_cast<std::size_t>(b)], library.eps),
                           random);
    }
}

} // namespace
} // namespace slab
