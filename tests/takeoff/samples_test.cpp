// The samples' sheets: what a search gains over the quick layout, and that the judge refuses nothing.
#include "../geometry/seed.h"
#include "core/base/paths.h"
#include "core/document/file.h"
#include "core/evaluate/evaluate.h"
#include "tests/nesting/taken.h"
#include <gmock/gmock.h>

namespace slab {
namespace {

/// Area that straight cuts leave to the panels, over all sheets, mm².
double taken(const NestProblem& problem, const NestResult& result) {
    double sum = 0;
    for (const NestLayout& layout : result.layouts) sum += takenOf(problem, layout);
    return sum;
}

class SampleSheets : public testing::TestWithParam<const char*> {};

TEST_P(SampleSheets, ASearchSavesSheetsOrArea) {
    const auto project = loadProject(sampleFolder() / (std::string(GetParam()) + ".slabside.json"));
    ASSERT_TRUE(project);
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(*project, Effort::live);
    ASSERT_TRUE(e.nestProblem);
    const NestProblem& problem = *e.nestProblem;
    const NestResult quick = nest(problem, {});
    NestOptions options;
    options.rounds = slowdown > 1 ? 2 : 24;
    options.threads = 2;
    const NestResult searched = nest(problem, options);
    for (const NestResult* result : {&quick, &searched}) {
        EXPECT_THAT(checkNest(problem, *result), testing::IsEmpty());
        EXPECT_EQ(result->refusals, 0);
        EXPECT_THAT(result->unplaced, testing::IsEmpty());
    }
    std::printf("%s: %zu sheets, %.2f, %.3f m2 taken; after a search %zu, %.2f, %.3f m2\n", GetParam(),
                quick.layouts.size(), quick.cost, taken(problem, quick) * 1e-6, searched.layouts.size(),
                searched.cost, taken(problem, searched) * 1e-6);
    EXPECT_LE(searched.cost, quick.cost);
    EXPECT_LE(searched.layouts.size(), quick.layouts.size());
    if (slowdown > 1) return; // too few rounds to gain anything for certain
    EXPECT_TRUE(searched.cost < quick.cost || searched.layouts.size() < quick.layouts.size() ||
                taken(problem, searched) < taken(problem, quick));
}

INSTANTIATE_TEST_SUITE_P(All, SampleSheets, testing::Values("harbour-fire-boat", "moon-crawler", "harbour-tram"));

} // namespace
} // namespace slab
