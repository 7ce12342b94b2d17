// The pipeline as a whole: remembered stages give what a fresh start gives, and a stopped run leaves nothing
// behind.
#include "core/survey/survey.h"
#include "core/evaluate/stages.h"
#include "tests/evaluate/samples.h"
#include <random>
#include <set>
#include <tbb/global_control.h>

using namespace slab;
using namespace slab::test;

namespace {

const char* const names[] = {"harbour-fire-boat", "moon-crawler", "harbour-tram"};

void expectSameBody(const Evaluation& a, const Evaluation& b) {
    ASSERT_TRUE(a.plates && b.plates);
    EXPECT_EQ(*a.plates, *b.plates);
    EXPECT_EQ(*a.panels, *b.panels);
    EXPECT_EQ(*a.donor, *b.donor);
    EXPECT_EQ(a.fit->pairs.size(), b.fit->pairs.size());
    EXPECT_EQ(a.fit->leastClearance, b.fit->leastClearance);
}

} // namespace

TEST(Pipeline, SamplesAreSoundAtTheirDefaultScale) {
    for (const char* name : names) {
        const Evaluation e = evaluated(sample(name), Effort::full);
        ASSERT_TRUE(e.plates && e.panels && e.fit && e.sheets) << name;
        for (const Finding& f : e.findings)
            EXPECT_NE(f.severity, Severity::stop) << name << ": " << f.code << ": " << f.message;
        EXPECT_TRUE(e.plates->gaps.empty()) << name;
        EXPECT_TRUE(e.plates->overlaps.empty()) << name;
        EXPECT_NE(e.fit->state, FitState::hits) << name;
        EXPECT_TRUE(e.sheets->unplaced.empty()) << name;
        EXPECT_TRUE(e.fit->confirmed) << name;
    }
}

TEST(Pipeline, FireBoatIsWhatItSays) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat);
    EXPECT_GE(e.plates->plates.size(), 35u);
    std::set<std::size_t> kinds;
    for (const Form& form : boat.forms) kinds.insert(form.shape.index());
    EXPECT_EQ(kinds.size(), std::variant_size_v<Shape>) << "every form kind is in it";
    std::set<std::string> stocks;
    for (const Plate& p : e.plates->plates) stocks.insert(p.stock);
    EXPECT_GE(stocks.size(), 2u);
    bool valley = false, mitre = false, cover = false;
    for (const JointInfo& j : e.plates->joints) {
        valley = valley || j.dihedral > 3.2;
        mitre = mitre || j.kind == JointKind::mitre;
        cover = cover || j.kind == JointKind::cover;
    }
    EXPECT_TRUE(valley && mitre && cover);
}

TEST(Pipeline, RememberedEqualsFromScratchOverRandomEdits) {
    std::mt19937_64 random(seed(20261));
    for (const char* name : names) {
        History history(sample(name));
        Evaluator remembering;
        std::uniform_int_distribution<int> pick(0, 5);
        std::uniform_real_distribution<double> scale(0.36, 0.55), price(5, 30);
        for (int step = 0; step < 12; ++step) {
            switch (pick(random)) {
            case 0:
                (void)history.push(setScale(printExact(scale(random), Unit::none)));
                break;
            case 1:
                (void)history.push(
                    setValue("/stock/sheets/0/price", "\"" + printExact(price(random), Unit::none) + "\""));
                break;
            case 2:
                history.undo();
                break;
            case 3:
                history.redo();
                break;
            case 4:
                (void)history.push(setValue("/stock/sheets/0/thickness", "\"10 mm\""));
                break;
            default:
                (void)history.push(setValue("/donor/at/x", "\"0.7 m\""));
                break;
            }
            const Evaluation kept = remembering.evaluate(history.current(), Effort::live);
            expectSameBody(kept, evaluated(history.current()));
        }
    }
}

TEST(Pipeline, FullEvaluationIsTheSameTwiceAndAfterADrag) {
    const Project crawler = sample("moon-crawler");
    Evaluator dragged;
    for (const char* scale : {"0.47", "0.52", "0.49"}) {
        Project moving = crawler;
        moving.scale = scale;
        (void)dragged.evaluate(moving, Effort::live);
    }
    EXPECT_EQ(reportJson(crawler, dragged.evaluate(crawler, Effort::full)),
              reportJson(crawler, evaluated(crawler, Effort::full)));
}

TEST(Pipeline, CoresDoNotChangeTheResult) {
    for (const char* name : {"moon-crawler", "harbour-fire-boat"}) {
        const Project project = sample(name);
        const std::string shared = reportJson(project, evaluated(project, Effort::live));
        const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
        EXPECT_EQ(shared, reportJson(project, evaluated(project, Effort::live))) << name;
    }
}

TEST(Pipeline, StoppedRunLeavesNothingWrongBehind) {
    const Project crawler = sample("moon-crawler");
    Evaluator evaluator;
    std::stop_source stop;
    stop.request_stop();
    (void)evaluator.evaluate(crawler, Effort::full, 0, Job{stop.get_token(), {}});
    expectSameBody(evaluator.evaluate(crawler, Effort::live), evaluated(crawler));
}

TEST(Pipeline, BadScaleIsAFindingNotACrash) {
    for (const char* text : {"0", "-1", "nan", "", "1e9", "2/0", "two", "0.0000001"}) {
        Project crawler = sample("moon-crawler");
        crawler.scale = text;
        const Evaluation e = evaluated(crawler);
        ASSERT_FALSE(e.findings.empty()) << text;
        EXPECT_EQ(e.findings.front().severity, Severity::stop) << text;
        EXPECT_FALSE(e.findings.front().remedy.empty() && e.findings.front().message.empty()) << text;
    }
}

TEST(Pipeline, EmptyDocumentEvaluates) {
    const Evaluation e = evaluated(Project{}, Effort::full);
    ASSERT_TRUE(e.plates && e.fit && e.sheets);
    EXPECT_TRUE(e.plates->plates.empty());
    EXPECT_EQ(e.totals.sheets, 0);
}

TEST(Pipeline, WithoutASheetOnlyThatIsTold) {
    Project boat = sample("harbour-fire-boat");
    boat.materials = {};
    std::set<std::string> codes;
    for (const Finding& f : evaluated(boat).findings) codes.insert(f.code);
    EXPECT_TRUE(codes.contains("no-material"));
    for (const char* untrue : {"opening-misses", "module-empty", "turntable-no-deck"})
        EXPECT_FALSE(codes.contains(untrue)) << untrue; // every name in the document is right
}

TEST(Pipeline, AnOpeningInASideThatIsLeftOutSaysSo) {
    Project boat = sample("harbour-fire-boat");
    boat.materials.fallback = "";
    int told = 0;
    for (const Finding& f : evaluated(boat).findings)
        if (f.code == "opening-misses") {
            ++told;
            EXPECT_NE(f.message.find(" has no sheet"), std::string::npos) << f.message;
        }
    EXPECT_EQ(told, 6);
}

TEST(Survey, NobodyToFitAndNoEndToTheFitClaimNoLeastScale) {
    Project crawler = sample("moon-crawler");
    const ScaleSurvey roomy = surveyScale(crawler, 0.5, 0.52);
    ASSERT_FALSE(roomy.bands.empty());
    EXPECT_EQ(roomy.bands.front().state, FitState::fits);
    EXPECT_FALSE(roomy.leastFitting.has_value()) << "it may fit below 0.5 too";
    crawler.donor.kind = "none";
    crawler.rider.table = "none";
    const ScaleSurvey nobody = surveyScale(crawler, 0.45, 0.5);
    EXPECT_TRUE(nobody.bands.empty());
    EXPECT_FALSE(nobody.leastFitting.has_value());
    EXPECT_FALSE(nobody.sheetSteps.empty());
}

TEST(Survey, FireBoatStopsFittingBelowAScaleInsideTheRuler) {
    const Project boat = sample("harbour-fire-boat");
    const double now = *readScale(boat.scale);
    const ScaleSurvey survey = surveyScale(boat, now * 0.6, now * 1.5);
    ASSERT_TRUE(survey.leastFitting.has_value());
    EXPECT_GT(*survey.leastFitting, now * 0.6);
    EXPECT_LE(*survey.leastFitting, now);
    ASSERT_FALSE(survey.bands.empty());
    EXPECT_NEAR(survey.bands.front().from, now * 0.6, 1e-12);
    EXPECT_NEAR(survey.bands.back().to, now * 1.5, 1e-12);
    for (std::size_t i = 1; i < survey.bands.size(); ++i) {
        EXPECT_DOUBLE_EQ(survey.bands[i].from, survey.bands[i - 1].to);
        EXPECT_NE(survey.bands[i].state, survey.bands[i - 1].state);
    }
    ASSERT_FALSE(survey.sheetSteps.empty());
    for (std::size_t i = 1; i < survey.sheetSteps.size(); ++i)
        EXPECT_TRUE(survey.sheetSteps[i].tooLarge > 0 ||
                    survey.sheetSteps[i].sheets > survey.sheetSteps[i - 1].sheets);
}

TEST(Pipeline, PanelsSplitAtALargeScaleAreWholeAgainAtASmallerOne) {
    Project boat = sample("harbour-fire-boat");
    Evaluator dragged;
    boat.scale = "0.6"; // the deck is longer than the sheet
    const Evaluation large = dragged.evaluate(boat, Effort::live);
    EXPECT_FALSE(large.seams->empty());
    EXPECT_TRUE(large.sheets->unplaced.empty());
    boat.scale = "0.4";
    const Evaluation small = dragged.evaluate(boat, Effort::live);
    EXPECT_TRUE(small.seams->empty());
    EXPECT_TRUE(small.sheets->unplaced.empty());
    for (const Panel& panel : *small.panels) EXPECT_TRUE(panel.cutFrom.empty()) << panel.name;
}

TEST(Survey, SaysFromWhereAPanelIsLargerThanItsSheet) {
    Project boat = sample("harbour-fire-boat");
    const ScaleSurvey survey = surveyScale(boat, 0.2, 0.65);
    const auto& steps = survey.sheetSteps;
    const auto first = std::find_if(steps.begin(), steps.end(), [](const auto& s) { return s.tooLarge > 0; });
    ASSERT_NE(first, steps.end());
    ASSERT_NE(first, steps.begin());
    const auto larger = [&](double scale) {
        boat.scale = printExact(scale, Unit::none);
        const Evaluation e = evaluated(boat);
        std::set<std::string> panels;
        for (const SeamCut& seam : *e.seams) panels.insert(seam.panel);
        for (const auto& [part, copy] : e.sheets->unplaced)
            panels.insert(e.nestProblem->parts[static_cast<std::size_t>(part)].id);
        return static_cast<int>(panels.size());
    };
    EXPECT_EQ(larger(first->scale), first->tooLarge);
    EXPECT_EQ(larger(first->scale - (0.65 - 0.2) / 900), 0) << "just below, every panel lies on a sheet";
    for (auto step = first; step != steps.end(); ++step) EXPECT_GT(step->tooLarge, 0);
}

TEST(Survey, LearnsFromALayoutThatNeedsLess) {
    using Step = ScaleSurvey::Step;
    ScaleSurvey survey;
    survey.from = 0.24;
    survey.to = 0.48; // laid out at every hundredth
    const std::vector<Step> laid = {{0.24, 5, 0}, {0.35, 7, 0}, {0.44, 9, 0}, {0.46, 0, 2}};
    survey.sheetSteps = laid;
    learnLayout(survey, 0.375, 6); // holds up to the next scale that was laid out
    EXPECT_EQ(survey.sheetSteps,
              (std::vector<Step>{{0.24, 5, 0}, {0.35, 6, 0}, {0.38, 7, 0}, {0.44, 9, 0}, {0.46, 0, 2}}));
    learnLayout(survey, 0.435, 5); // up to the step's end, and so do all smaller ones
    EXPECT_EQ(survey.sheetSteps, (std::vector<Step>{{0.24, 5, 0}, {0.44, 9, 0}, {0.46, 0, 2}}));
    survey.sheetSteps = laid;
    learnLayout(survey, 0.36, 8); // worse tells nothing
    learnLayout(survey, 0.47, 3); // nor does it where panels are too large
    learnLayout(survey, 0.2, 3);
    EXPECT_EQ(survey.sheetSteps, laid);
}

TEST(Survey, SheetStepsAgreeWithAFreshLayout) {
    const Project boat = sample("harbour-fire-boat");
    const ScaleSurvey survey = surveyScale(boat, 0.2, 0.65);
    ASSERT_FALSE(survey.sheetSteps.empty());
    int here = 0;
    for (const ScaleSurvey::Step& s : survey.sheetSteps)
        if (s.scale <= 0.4 && s.tooLarge == 0) here = s.sheets;
    EXPECT_NEAR(here, evaluated(boat).totals.sheets, 1);
    EXPECT_GE(survey.sheetSteps.size(), 3u);
}
