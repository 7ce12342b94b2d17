// OpenCASCADE's verdict on the fire boat: it changes no live figure by more than 1e-6 mm.
#include "core/geometry/occt.h"
#include "core/units/units.h"
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <cmath>

using namespace slab;
using namespace slab::test;

namespace {

constexpr double agreement = 1e-6; // mm

const FitSolid* solidOf(const Evaluation& e, const std::string& name) {
    const auto& all = e.donor->solids;
    const auto it = std::find_if(all.begin(), all.end(), [&](const FitSolid& s) { return s.name == name; });
    return it == all.end() ? nullptr : &*it;
}

const Plate* plateOf(const Evaluation& e, const std::string& name) {
    const auto& all = e.plates->plates;
    const auto it = std::find_if(all.begin(), all.end(), [&](const Plate& p) { return p.name == name; });
    return it == all.end() ? nullptr : &*it;
}

Project boatAt(double scale) {
    Project boat = sample("harbour-fire-boat");
    boat.scale = printExact(scale, Unit::none);
    return boat;
}

} // namespace

TEST(Verdict, AgreesWithEveryLiveDistanceOfTheFireBoat) {
    // Small enough to hit, tight, as it comes, and larger.
    const std::vector<double> scales = {0.31, 0.36, 0.4, 0.437, 0.5};
    int compared = 0, hits = 0;
    double worst = 0;
    for (const double scale : scales) {
        Evaluator evaluator;
        const Project boat = boatAt(scale);
        const Evaluation live = evaluator.evaluate(boat, Effort::live);
        const Evaluation confirmed = evaluator.evaluate(boat, Effort::verdict);
        ASSERT_TRUE(live.fit && confirmed.fit);
        EXPECT_FALSE(live.fit->confirmed) << "the live figures wait for nobody";
        EXPECT_TRUE(confirmed.fit->confirmed) << scale;
        ASSERT_EQ(live.fit->pairs.size(), confirmed.fit->pairs.size());
        for (std::size_t i = 0; i < live.fit->pairs.size(); ++i) {
            const FitPair &before = live.fit->pairs[i], &after = confirmed.fit->pairs[i];
            const std::string which =
                before.solid + " to " + before.plate + " at " + printExact(scale, Unit::none);
            EXPECT_TRUE(after.confirmed) << which;
            EXPECT_EQ(before.state, after.state) << which;
            EXPECT_LE(std::abs(before.clearance - after.clearance), agreement) << which;
            if (before.state == FitState::hits) {
                ++hits;
                continue;
            }
            // Asked directly, whatever the pipeline made of the answer.
            const FitSolid* solid = solidOf(live, before.solid);
            const Plate* plate = plateOf(live, before.plate);
            ASSERT_TRUE(solid && plate) << which;
            const auto direct = occt::nearest(plate->solid, solid->shape);
            ASSERT_TRUE(direct) << which;
            worst = std::max(worst, std::abs(direct->distance - before.clearance));
            ++compared;
        }
    }
    std::printf("%d distances compared at %zu scales, %d hits, largest difference %.3g mm\n", compared,
                scales.size(), hits, worst);
    EXPECT_GT(compared, 50);
    EXPECT_GT(hits, 0) << "no scale was small enough to hit";
    EXPECT_LE(worst, agreement);
}

TEST(Verdict, LeavesOutlinesAndTotalsAsTheyWereLive) {
    Evaluator dragged;
    (void)dragged.evaluate(boatAt(0.42), Effort::live);
    const Project boat = boatAt(0.39);
    const Evaluation live = dragged.evaluate(boat, Effort::live);
    const Evaluation rest = evaluated(boat, Effort::verdict);
    ASSERT_EQ(live.panels->size(), rest.panels->size());
    for (std::size_t i = 0; i < live.panels->size(); ++i) {
        const Ring &a = (*live.panels)[i].boundary.outer, &b = (*rest.panels)[i].boundary.outer;
        ASSERT_EQ(a.size(), b.size()) << (*live.panels)[i].name;
        for (std::size_t k = 0; k < a.size(); ++k) EXPECT_LE((a[k] - b[k]).norm(), agreement);
    }
    EXPECT_LE(std::abs(live.totals.leastClearance - rest.totals.leastClearance), agreement);
    EXPECT_LE(std::abs(live.totals.cutLength - rest.totals.cutLength), agreement);
    EXPECT_LE(std::abs(live.totals.jointLength - rest.totals.jointLength), agreement);
    EXPECT_NEAR(live.totals.mass, rest.totals.mass, 1e-9);
    EXPECT_EQ(live.totals.panels, rest.totals.panels);
}

// The nearest points that were seen live lie in both solids: a search that finds them farther apart has
// missed them. The wall's inside is at 1 m less 5 mm on the drawing, the forearm reaches out to 266 mm.
TEST(Verdict, NeverTakesALargerDistanceThanTwoPointsHave) {
    Project tram = sample("harbour-tram");
    tram.scale = "0.3803";
    tram.rider.age = "9";
    for (NamedText& change : tram.donor.changes) {
        if (change.name == "seat_height") change.value = "420 mm";
        if (change.name == "base_height") change.value = "400 mm";
    }
    const Evaluation e = evaluated(tram, Effort::verdict);
    bool found = false;
    for (const FitPair& pair : e.fit->pairs)
        if (pair.solid == "rider/right forearm" && pair.plate == "body/starboard") {
            found = true;
            EXPECT_NEAR(pair.clearance, 1000 * 0.3803 - 5 - 266, 0.02);
            EXPECT_TRUE(pair.confirmed);
        }
    EXPECT_TRUE(found);
    for (const Finding& f : e.findings) EXPECT_NE(f.code, "fit-verdict") << f.message;
}
