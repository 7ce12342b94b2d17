// The scale ruler's bands hold for what moves over its whole range.
#include "core/fit/swept.h"
#include "core/survey/survey.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include "tests/geometry/seed.h"
#include <filesystem>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// A box round a chair and its rider, with a drum that hangs from the roof over the head.
json drumOverHead() {
    json d =
        json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
    const auto point = [](const char* name, const char* x, const char* z) {
        return json{{"name", name}, {"x", x}, {"z", z}, {"half_width", "500 mm"}};
    };
    d["forms"] = {{{"name", "box"},
                   {"kind", "profile"},
                   {"outline",
                    {point("floor", "-300 mm", "100 mm"), point("front", "1600 mm", "100 mm"),
                     point("top", "1600 mm", "1500 mm"), point("back", "-300 mm", "1500 mm")}}}};
    d["joints"] = json::object();
    d["materials"]["plates"] = {{"box/floor", nullptr}}; // wheels stand through the floor
    // What it weighs and where it is ridden is no matter here.
    d["donor"] = {
        {"kind", "powered_chair"}, {"at", {{"x", "300 mm"}}}, {"changes", {{"rated_load", "5000"}}}};
    d["ride"] = {{"slope", "0"}, {"cross_slope", "0"}};
    d["rider"] = {{"table", "adult"}, {"sex", "both"}, {"percentile", "50"}};
    d["mechanisms"]["turntables"] = {{{"name", "hub"},
                                      {"at", {{"x", "420 mm"}, {"z", "1500 mm"}}},
                                      {"diameter", "200 mm"},
                                      {"depth", "300 mm"},
                                      {"wall", "3 mm"},
                                      {"lip", "20 mm"},
                                      {"lip_thickness", "5 mm"},
                                      {"ring_stock", "ply"},
                                      {"gap", "2 mm"},
                                      {"overlap", "12 mm"},
                                      {"ring_width", "50 mm"}}};
    return d;
}

/// A boom that reaches forward from over the head and comes down; level as shown.
json boomInFront() {
    json d = drumOverHead();
    d["mechanisms"] = {{"trunnions",
                        {{{"name", "boom"},
                          {"at", {{"x", "700 mm"}, {"y", "130 mm"}, {"z", "1300 mm"}}},
                          {"diameter", "60 mm"},
                          {"front", "720 mm"},
                          {"rear", "100 mm"},
                          {"lowest", "-90 deg"},
                          {"highest", "10 deg"},
                          {"mass", "1"},
                          {"angle", "0"}}}}};
    return d;
}

/// Worst of all that was swept.
FitState sweptState(const MechanismSet& set) {
    FitState worst = FitState::fits;
    for (const SweptCheck& c : set.checks)
        if (c.clearance < c.wanted - 1e-6)
            worst = std::max(worst, c.clearance < -1e-6 ? FitState::hits : FitState::tight);
    return worst;
}

void expectTrueBands(const json& document, double from, double to, int looks = 8) {
    auto project = readProject(document.dump());
    ASSERT_TRUE(project) << project.error().message;
    const ScaleSurvey survey = surveyScale(*project, from, to);
    ASSERT_FALSE(survey.bands.empty());
    std::string words;
    for (const FitBand& b : survey.bands)
        words += std::to_string(b.from) + " to " + std::to_string(b.to) + ": " +
                 std::to_string(static_cast<int>(b.state)) + " " +
                 (b.bindings.empty() ? "" : b.bindings.front().pair) + "\n";
    SCOPED_TRACE(words);
    auto random = seeded(61);
    int looked = 0;
    std::set<FitState> seen;
    for (int i = 0; i < 40 && looked < looks; ++i) {
        const double scale = from + (to - from) * (i % looks + uniform(random, 0, 1)) / looks; // all over
        const auto band = std::find_if(survey.bands.begin(), survey.bands.end(), [&](const FitBand& b) {
            return scale > b.from + 2e-3 &&
                   scale < b.to - 2e-3; // an edge is where one word passes to the next
        });
        if (band == survey.bands.end()) continue;
        project->scale = printExact(scale, Unit::none);
        const Evaluation e = evaluated(*project, Effort::verdict);
        EXPECT_EQ(band->state, std::max(wholeState(*e.fit, e.afloat.get()), sweptState(*e.mechanisms)))
            << scale;
        seen.insert(band->state);
        ++looked;
    }
    EXPECT_GE(looked, std::min(looks, 6));
    EXPECT_GE(seen.size(), 2U);
}

} // namespace

TEST(SurveyOfWhatMoves, aDrumOverTheHead) {
    expectTrueBands(drumOverHead(), 0.8, 1.2);
}

TEST(SurveyOfWhatMoves, aBoomThatComesDown) {
    expectTrueBands(boomInFront(), 0.9, 1.5);
}

// The document that showed the fault: a tube whose own drum comes into its way as it is made larger, and
// bands that told of donor and rider only.
TEST(SurveyOfWhatMoves, aTubeAndItsOwnDrum) {
    const std::string document =
        textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "samples" / "harbour-fire-boat.slabside.json");
    json boat = json::parse(document);
    boat["route"] = json::array(); // what moves is looked at, not what it is driven through
    expectTrueBands(boat, 0.39, 0.46, 4);
}
