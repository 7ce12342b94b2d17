// The survey's bands against a look at every one of many scales. SLABSIDE_SURVEY=2000 looks at so many of
// each sample.
#include "core/survey/constraint_sources.h"
#include "core/survey/sampler.h"
#include "tests/evaluate/samples.h"
#include <cstdlib>

using namespace slab;
using namespace slab::test;

namespace {

/// The worst that every constraint tells at a scale, by a fresh look.
FitState lookedAt(Evaluator& evaluator, Project& project, double scale) {
    project.scale = printExact(scale, Unit::none);
    SurveySample there;
    there.told = marginsOf(evaluator.evaluate(project, Effort::survey));
    return there.state();
}

/// @param looks  in a run without SLABSIDE_SURVEY, over a range that has all kinds of edges; 0 leaves it out
void expectBands(const std::string& name, double from, double to, int looks) {
    if (const char* many = std::getenv("SLABSIDE_SURVEY")) {
        looks = std::atoi(many);
        from = 0.2;
        to = 0.8;
    } else if (looks == 0) {
        GTEST_SKIP() << "SLABSIDE_SURVEY is not set";
    }
    Project project = sample(name);
    const ScaleSurvey survey = surveyScale(project, from, to);
    Evaluator evaluator;
    int wrong = 0;
    std::string where;
    for (int i = 0; i < looks; ++i) {
        const double scale = from + (to - from) * (i + 0.5) / looks;
        const FitState state = lookedAt(evaluator, project, scale);
        const bool right = std::any_of(survey.bands.begin(), survey.bands.end(), [&](const FitBand& b) {
            return b.state == state && scale >= b.from - surveyTolerance && scale <= b.to + surveyTolerance;
        });
        if (right) continue;
        ++wrong;
        where += " " + std::to_string(scale);
    }
    std::printf("%s: %d of %d scales differ\n", name.c_str(), wrong, looks);
    EXPECT_EQ(wrong, 0) << where;
}

} // namespace

TEST(SurveyByBruteForce, MoonCrawler) {
    expectBands("moon-crawler", 0.44, 0.48, 25);
}
TEST(SurveyByBruteForce, FireBoat) {
    expectBands("harbour-fire-boat", 0.36, 0.41, 6);
}
TEST(SurveyByBruteForce, Tram) {
    expectBands("harbour-tram", 0.2, 0.8, 0);
}
