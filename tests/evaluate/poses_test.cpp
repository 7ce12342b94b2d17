// Leaning riders in the samples: every pose that is told agrees with OpenCASCADE, no hit is missed, and all
// that looks at the fit sees the worst pose.
#include "core/fit/pieces.h"
#include "core/fit/poses.h"
#include "core/geometry/occt.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/shown.h"
#include "core/units/units.h"
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;

namespace {

/// A sample whose rider leans far, somewhat smaller than it is.
Project leaning(const std::string& name) {
    Project p = sample(name);
    p.rider.lean_forward = "35 deg";
    p.rider.lean_back = "15 deg";
    p.rider.lean_aside = "30 deg";
    p.rider.helmet = "40 mm";
    p.scale = printExact(*parseRatio(p.scale) * 0.93, Unit::none);
    return p;
}

/// Margin that the fit tells of a pair, at rest or in its worst pose; nothing if it tells none.
std::optional<double> toldOf(const FitResult& fit, const std::string& solid, const std::string& plate) {
    std::optional<double> least;
    const auto take = [&](const FitPair& p) {
        if (p.solid == solid && p.plate == plate) least = std::min(least.value_or(1e9), marginOf(p));
    };
    for (const FitPair& p : fit.pairs) take(p);
    for (const FitResult::Posed& p : fit.posed) take(p.pair);
    return least;
}

class PosedSample : public testing::TestWithParam<const char*> {};

} // namespace

TEST_P(PosedSample, AgreesWithOpenCascade) {
    const Project project = leaning(GetParam());
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(project, Effort::fitOnly);
    ASSERT_TRUE(e.fit && e.donor);
    ASSERT_FALSE(e.donor->poses.empty());
    const PlateSet plates = withRounds(*e.plates, shownRounds(*e.mechanisms, e.body->rounds));
    const auto posed = posedSolids(e.donor->poses);
    const FitWords words;
    const PoseField field{e.donor->solids, posed, plates, words};
    KnownPairs known;
    FitResult rest = *e.fit;
    rest.confirmed = true;
    const FitResult fit = confirmedPoses(rest, *e.fit, field, known);
    EXPECT_TRUE(fit.confirmed);
    ASSERT_EQ(fit.posed.size(), e.fit->posed.size());
    EXPECT_FALSE(fit.posed.empty());
    for (std::size_t i = 0; i < fit.posed.size(); ++i) {
        const FitPair &live = e.fit->posed[i].pair, &judged = fit.posed[i].pair;
        EXPECT_TRUE(judged.confirmed) << live.solid << " to " << live.plate;
        EXPECT_EQ(live.state, judged.state) << live.solid << " to " << live.plate;
        EXPECT_NEAR(live.clearance, judged.clearance, 1e-6) << live.solid << " to " << live.plate;
    }
    // Pairs near enough to matter, whatever was made of them; as many as a second allows.
    std::vector<std::pair<const FitSolid*, const Plate*>> near;
    for (const PosedSolid& s : posed)
        for (const Plate& p : plates.plates)
            if (!p.solid.vertices.empty() && boxDistance(bounds(s.solid.shape), bounds(p.solid)) < 20)
                near.emplace_back(&s.solid, &p);
    constexpr std::size_t most = 20;
    std::map<const Plate*, occt::Built> built;
    std::size_t asked = 0, mattering = 0;
    for (std::size_t i = 0; i < near.size(); i += std::max<std::size_t>(near.size() / most, 1)) {
        const auto& [solid, plate] = near[i];
        if (plate->cells.size() == 1 && plate->cells[0].kind == ConvexSolid::Kind::cylinder) continue;
        const auto direct =
            occt::nearest(built.try_emplace(plate, plate->solid).first->second, occt::Built(solid->shape));
        ASSERT_TRUE(direct) << solid->name << " to " << plate->name;
        ++asked;
        if (direct->distance >= solid->clearance - 1e-6) continue;
        ++mattering;
        const auto told = toldOf(*e.fit, solid->name, plate->name);
        ASSERT_TRUE(told) << solid->name << " to " << plate->name;
        EXPECT_LE(*told, direct->distance - solid->clearance + 1e-6) << solid->name << " to " << plate->name;
    }
    std::printf("%zu pairs told in poses, %zu of %zu asked directly, %zu of them near\n", fit.posed.size(),
                asked, near.size(), mattering);
    EXPECT_GT(asked, 10U);
}

INSTANTIATE_TEST_SUITE_P(All, PosedSample,
                         testing::Values("harbour-fire-boat", "harbour-tram", "moon-crawler"),
                         [](const auto& each) {
                             std::string name = each.param;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

TEST(Posed, EveryoneSeesTheWorstPose) {
    Project boat = sample("harbour-fire-boat");
    Evaluator evaluator;
    const Evaluation still = evaluator.evaluate(boat, Effort::live);
    boat.rider.lean_aside = "45 deg";
    const Evaluation e = evaluator.evaluate(boat, Effort::live);
    ASSERT_FALSE(e.fit->posed.empty());
    EXPECT_LT(e.fit->leastMargin, still.fit->leastMargin);
    EXPECT_LE(e.totals.leastClearance, still.totals.leastClearance);
    EXPECT_NE(probeOf(*e.fit).binding.find("leaning"), std::string::npos) << probeOf(*e.fit).binding;
    const Evaluation survey = evaluator.evaluate(boat, Effort::survey);
    EXPECT_LE(probeOf(*survey.fit).margin, probeOf(*e.fit).margin);
    const auto told = std::find_if(e.findings.begin(), e.findings.end(),
                                   [](const Finding& f) { return f.code.starts_with("pose-"); });
    ASSERT_NE(told, e.findings.end());
    EXPECT_TRUE(told->message.starts_with("Leaning ")) << told->message;
    const auto report = nlohmann::json::parse(reportJson(boat, e));
    ASSERT_EQ(report["fit"]["poses"].size(), e.fit->posed.size());
    EXPECT_EQ(report["fit"]["poses"][0]["pose"], e.fit->posed[0].words);
    EXPECT_EQ(report["fit"]["least_margin_mm"], e.fit->leastMargin);
}

TEST(Posed, PassengersAreInTheEvaluation) {
    Project boat = sample("harbour-fire-boat");
    Evaluator evaluator;
    const std::size_t alone = evaluator.evaluate(boat, Effort::fitOnly).donor->people.size();
    Passenger child;
    child.name = "child";
    child.table = "child";
    child.x = "500 mm";
    child.z = "400 mm";
    boat.passengers = {child};
    const Evaluation e = evaluator.evaluate(boat, Effort::fitOnly);
    EXPECT_EQ(e.donor->people.size(), alone + 1);
    boat.passengers[0].x = "600 mm"; // what is remembered of the donor does not hold any more
    EXPECT_NE(evaluator.evaluate(boat, Effort::fitOnly).donor->people.back().seat.x(),
              e.donor->people.back().seat.x());
}
