// The scale survey against closed forms.
#include "core/survey/constraint_sources.h"
#include "tests/evaluate/samples.h"
#include "tests/geometry/seed.h"
#include "tests/survey/crate.h"
#include <cmath>
#include <tbb/global_control.h>

using namespace slab;
using namespace slab::test;

namespace {

Crate randomCrate(std::mt19937_64& random) {
    Crate c;
    c.side = uniform(random, 700, 1500);
    c.thickness = uniform(random, 3, 40);
    c.clearance = uniform(random, 5, 60);
    c.length = uniform(random, 200, 500);
    c.width = uniform(random, 200, 500);
    c.height = uniform(random, 150, 400);
    c.centre = c.height / 2 + c.thickness + c.clearance + uniform(random, 5, 300);
    return c;
}

} // namespace

TEST(ScaleSurvey, EdgesOfABoxInABoxAreTheClosedForm) {
    auto random = seeded(4104);
    for (int i = 0; i < 16; ++i) {
        const Crate c = randomCrate(random);
        const double fits = c.scaleFor(c.clearance), apart = c.scaleFor(0);
        // Not so small that the crate lies wholly under the block.
        const double from = std::max(0.6 * apart, (c.centre - c.height / 2 + 1) / c.side);
        const ScaleSurvey s = surveyScale(read(c.document()), from, 1.3 * fits);
        std::string words;
        for (const FitBand& b : s.bands)
            words += std::to_string(b.from) + " " + std::to_string(static_cast<int>(b.state)) + " " +
                     b.bindingAt(b.from) + "\n";
        SCOPED_TRACE(words);
        ASSERT_EQ(s.bands.size(), 3U) << i << " apart " << apart << " fits " << fits;
        EXPECT_EQ(s.bands[0].state, FitState::hits);
        EXPECT_EQ(s.bands[1].state, FitState::tight);
        EXPECT_EQ(s.bands[2].state, FitState::fits);
        EXPECT_NEAR(s.bands[1].from, apart, surveyTolerance) << i;
        EXPECT_NEAR(s.bands[2].from, fits, surveyTolerance) << i;
        ASSERT_TRUE(s.leastFitting) << i;
        EXPECT_GE(*s.leastFitting, fits - 1e-9) << "it fits there";
        EXPECT_LE(*s.leastFitting, fits + surveyTolerance);
        EXPECT_LE(s.evaluations, 60) << "roots are found, not searched";
    }
}

TEST(ScaleSurvey, TheCurveOfASolidIsItsMarginEverywhere) {
    const Crate c;
    const ScaleSurvey s = surveyScale(read(c.document()), 0.45, 1);
    const Constraint* block = find(s, "fit:donor/block");
    ASSERT_TRUE(block);
    EXPECT_EQ(block->words, "block");
    ASSERT_GE(block->points.size(), 25U);
    for (const Margin& m : block->points) {
        if (m.clearance <= 0) continue;
        EXPECT_NEAR(m.margin, c.margin(m.scale), 1e-6) << m.scale;
    }
    const auto between = block->margin(0.9123);
    ASSERT_TRUE(between);
    EXPECT_NEAR(*between, c.margin(0.9123), 1e-6) << "straight between the points";
    EXPECT_FALSE(block->margin(0.44));
    EXPECT_FALSE(block->margin(1.01));
}

TEST(ScaleSurvey, SaysWhatBindsAtBothEnds) {
    // The roof comes down on the block below; above, a boom of the donor reaches past the wall of a part that
    // grows from a build size.
    Crate c;
    nlohmann::json d = c.document();
    const ScaleSurvey low = surveyScale(read(d), 0.5, 1);
    ASSERT_EQ(low.feasible.size(), 1U);
    EXPECT_EQ(low.feasible[0].below, "below 0.582 the block comes too near to crate/top");
    EXPECT_EQ(low.feasible[0].above, "");
    // A post that stands beside the crate: the wall grows into it.
    d["donor"]["solids"].push_back({{"name", "post"},
                                    {"shape", "box"},
                                    {"x", "600 mm"},
                                    {"y", "0"},
                                    {"z", "100 mm"},
                                    {"size_x", "100 mm"},
                                    {"size_y", "100 mm"},
                                    {"size_z", "200 mm"}});
    const ScaleSurvey both = surveyScale(read(d), 0.5, 1.09);
    ASSERT_EQ(both.feasible.size(), 1U);
    EXPECT_EQ(both.feasible[0].below, "below 0.582 the block comes too near to crate/top");
    EXPECT_EQ(both.feasible[0].above, "above 1.06 the post comes too near to crate/front");
}

TEST(ScaleSurvey, ThePanelThatOutgrowsItsSheetIsACurveAndAStep) {
    // Roof and floor cover: a square of the full side; the sheet is 1220 mm wide less 5 mm of trim on each
    // side.
    const ScaleSurvey s = surveyScale(read(Crate().document()), 1, 1.5);
    const Constraint* sheet = find(s, "sheet");
    ASSERT_TRUE(sheet);
    EXPECT_FALSE(sheet->must);
    for (const Margin& m : sheet->points) EXPECT_NEAR(m.margin, 1210 - 1000 * m.scale, 1e-6) << m.scale;
    const auto first = std::find_if(s.sheetSteps.begin(), s.sheetSteps.end(),
                                    [](const auto& step) { return step.tooLarge > 0; });
    ASSERT_NE(first, s.sheetSteps.end());
    EXPECT_GE(first->scale, 1.21);
    EXPECT_LE(first->scale, 1.21 + 0.5 / 1000);
}

TEST(ScaleSurvey, StepsCostWhatTheSheetsCost) {
    nlohmann::json d = Crate().document();
    d["stock"]["sheets"][0]["price"] = "30";
    d["stock"]["sheets"][0]["on_hand"] = "1";
    const ScaleSurvey s = surveyScale(read(d), 0.5, 1.2);
    ASSERT_GE(s.sheetSteps.size(), 2U);
    for (const ScaleSurvey::Step& step : s.sheetSteps)
        EXPECT_NEAR(step.cost, 30 * (step.sheets - 1), 1e-9) << step.scale << ": one is in the shed";
}

TEST(ScaleSurvey, TheSameOnOneThreadAndOnMany) {
    const Project boat = sample("moon-crawler");
    const ScaleSurvey many = surveyScale(boat, 0.42, 0.5);
    const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
    EXPECT_TRUE(surveyScale(boat, 0.42, 0.5) == many);
}

TEST(ScaleSurvey, StopsAndRefuses) {
    std::stop_source stop;
    stop.request_stop();
    const ScaleSurvey stopped = surveyScale(read(Crate().document()), 0.5, 1, Job{stop.get_token(), {}});
    EXPECT_TRUE(stopped.bands.empty());
    EXPECT_FALSE(stopped.pick.scale);
    EXPECT_TRUE(surveyScale(read(Crate().document()), 0, 1).constraints.empty());
    EXPECT_TRUE(surveyScale(read(Crate().document()), 1, 0.5).constraints.empty());
}

TEST(Constraints, WhatTheTrialTellsIsAddedByItself) {
    Evaluation e = evaluated(read(Crate().document()));
    trial::Trial trial;
    trial.route.resize(3);
    trial.route[0].name = "gate";
    trial.route[0].measure = "across";
    trial.route[0].binds = "crate/port";
    trial.route[0].margin = -12;
    trial.route[0].outcome = trial::Outcome::fails;
    trial.route[1].name = "ramp";
    trial.route[1].margin = 7;
    trial.route[1].outcome = trial::Outcome::tight;
    trial.route[2].name = "unknown";
    trial.balance.emplace();
    trial.balance->rated = 136;
    trial.balance->rating = ride::Rating{150, 108.8};
    e.trial = std::make_shared<const trial::Trial>(trial);
    std::vector<std::string> failing;
    int told = 0;
    for (const ToldMargin& t : marginsOf(e)) {
        if (t.of.key.starts_with("route:") || t.of.key == "load") ++told;
        if (t.of.must && !holds(t.margin)) failing.push_back(failWords(t.of, t.margin));
        if (t.of.key == "load") {
            EXPECT_NEAR(t.margin.margin, -14, 1e-9);
        }
    }
    EXPECT_EQ(told, 3);
    EXPECT_EQ(failing, (std::vector<std::string>{"it does not pass gate, across (crate/port binds)",
                                                 "the donor carries more than it is rated for"}));
}
