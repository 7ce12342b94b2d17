// Round features against stock sizes.
#include "core/survey/pick.h"
#include "core/survey/squeeze.h"
#include "tests/survey/crate.h"
#include <algorithm>
#include <cmath>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// Outside of ASTM D1785 pipe, in: read at https://pdfcoffee.com/astm-d1785-3-pdf-free.html and
/// http://www.sd-w.com/channel_flow/pipe_data/ .
const std::pair<const char*, double> pipes[] = {
    {"1/2", 0.840}, {"3/4", 1.050},   {"1", 1.315},   {"1-1/4", 1.660}, {"1-1/2", 1.900},
    {"2", 2.375},   {"2-1/2", 2.875}, {"3", 3.500},   {"4", 4.500},     {"5", 5.563},
    {"6", 6.625},   {"8", 8.625},     {"10", 10.750}, {"12", 12.750}};

json withFunnel(const char* diameter) {
    json d = Crate().document();
    d["forms"].push_back({{"name", "funnel"},
                          {"kind", "round"},
                          {"at", {{"z", "1 m"}}},
                          {"diameter", diameter},
                          {"length", "0.4 m"}});
    return d;
}

const StockMatch* at(const StockMatches& all, const std::string& part) {
    for (const StockMatch& m : all.matches)
        if (m.part == part) return &m;
    return nullptr;
}

} // namespace

TEST(StockMatches, EveryPublishedPipeAtItsOwnScale) {
    const StockMatches all = stockMatches(read(withFunnel("1 m")), 0.01, 0.5);
    EXPECT_DOUBLE_EQ(all.tolerance, 3);
    for (const auto& [nominal, inches] : pipes) {
        const StockMatch* m = at(all, std::string(nominal) + " in pipe");
        ASSERT_TRUE(m) << nominal;
        EXPECT_NEAR(m->scale, inches * 25.4 / 1000, 1e-12) << nominal;
        EXPECT_NEAR(m->from, m->scale - 0.003, 1e-12);
        EXPECT_NEAR(m->to, m->scale + 0.003, 1e-12);
        EXPECT_EQ(m->words, "funnel");
    }
    // ANSI C80.3 tubing: https://htrsd.org/er-doctor/what-is-the-od-of-2-emt.html
    for (const auto& [nominal, inches] :
         {std::pair{"1/2", 0.706}, {"3/4", 0.922}, {"1", 1.163}, {"2", 2.197}}) {
        const StockMatch* m = at(all, std::string(nominal) + " in conduit");
        ASSERT_TRUE(m) << nominal;
        EXPECT_NEAR(m->scale, inches * 25.4 / 1000, 1e-12) << nominal;
    }
    // ASTM D3034: https://sciencing.com/facts-7941178-sdr35-pvc-pipe-specifications.html
    ASSERT_TRUE(at(all, "4 in sewer pipe"));
    EXPECT_NEAR(at(all, "4 in sewer pipe")->scale, 4.215 * 25.4 / 1000, 1e-12);
    ASSERT_TRUE(at(all, "110 mm drain pipe")); // EN 1329-1, from memory
    EXPECT_NEAR(at(all, "110 mm drain pipe")->scale, 0.11, 1e-12);
    for (std::size_t i = 1; i < all.matches.size(); ++i)
        EXPECT_LE(all.matches[i - 1].scale, all.matches[i].scale);
}

TEST(StockMatches, WhatIsInTheShedAndHowFarOff) {
    json d = withFunnel("1 m");
    d["stock"]["match"] = "10 mm";
    d["stock"]["rounds"] = {{{"name", "tub"}, {"diameter", "402 mm"}, {"price", "0"}, {"on_hand", "1"}}};
    const StockMatches all = stockMatches(read(d), 0.3, 0.5);
    const StockMatch* tub = at(all, "tub");
    ASSERT_TRUE(tub);
    EXPECT_NEAR(tub->scale, 0.402, 1e-12);
    EXPECT_NEAR(tub->from, 0.392, 1e-12);
    EXPECT_NEAR(tub->to, 0.412, 1e-12);
    EXPECT_TRUE(tub->inShed);
    EXPECT_NEAR(at(all, "12 in pipe")->from, 12.75 * 0.0254 - 0.01, 1e-12);
    EXPECT_NEAR(stockMatches(read(d), 0.4, 0.5).matches.front().from, 0.4, 1e-12) << "within the range";
}

TEST(StockMatches, OfDiametersThatAreNoPlainMultiple) {
    // 100 mm and 200 mm as built from a full size of 0.25 m: 4 in pipe at (114.3 - 20) / 250.
    const StockMatches mixed = stockMatches(read(withFunnel("0.25 m + build(20 mm)")), 0.2, 0.6);
    ASSERT_TRUE(at(mixed, "4 in pipe"));
    EXPECT_NEAR(at(mixed, "4 in pipe")->scale, (114.3 - 20) / 250, 1e-9);
    EXPECT_NEAR(at(mixed, "4 in pipe")->to, (117.3 - 20) / 250, 1e-9);
    // Bent: the larger of the two.
    const StockMatches bent = stockMatches(read(withFunnel("max(0.25 m, build(100 mm))")), 0.2, 0.6);
    ASSERT_TRUE(at(bent, "4 in pipe"));
    EXPECT_NEAR(at(bent, "4 in pipe")->scale, 114.3 / 250, 1e-9);
    EXPECT_FALSE(at(bent, "90 mm drain pipe")) << "never so thin";
    // The same at every scale: no scale does better than another.
    const StockMatches still = stockMatches(read(withFunnel("build(115 mm)")), 0.2, 0.6);
    EXPECT_TRUE(still.matches.empty());
    ASSERT_EQ(still.always.size(), 1U);
    EXPECT_EQ(still.always[0].part, "4 in pipe");
}

TEST(StockMatches, ConesAndFormsThatAreOffAreNoPipes) {
    json d = withFunnel("1 m");
    d["forms"].back()["top_diameter"] = "0.8 m";
    EXPECT_TRUE(stockMatches(read(d), 0.01, 0.5).matches.empty());
    d["forms"].back().erase("top_diameter");
    EXPECT_FALSE(stockMatches(read(d), 0.01, 0.5).matches.empty());
    d["forms"].back()["off"] = true;
    EXPECT_TRUE(stockMatches(read(d), 0.01, 0.5).matches.empty());
    EXPECT_TRUE(stockMatches(read(withFunnel("no_such_name")), 0.01, 0.5).matches.empty());
}

TEST(ScalePick, HoldsAndHasTheMostMatches) {
    // 4 in pipe at 0.635: the funnel is 0.18 m; the crate begins to fit at 0.582.
    json d = withFunnel("0.18 m");
    d["forms"].push_back({{"name", "mast"},
                          {"kind", "round"},
                          {"at", {{"z", "1 m"}}},
                          {"diameter", "0.095 m"},
                          {"length", "0.9 m"}}); // 2 in pipe at 0.635 too
    d["stock"]["match"] = "1 mm";
    const ScaleSurvey s = surveyScale(read(d), 0.5, 0.7);
    ASSERT_TRUE(s.pick.scale) << (s.pick.reasons.empty() ? "" : s.pick.reasons.front());
    EXPECT_GE(*s.pick.scale, Crate().scaleFor(20));
    EXPECT_NEAR(*s.pick.scale * 180, 114.3, 1);
    EXPECT_NEAR(*s.pick.scale * 95, 60.325, 1);
    std::string all;
    for (const std::string& line : s.pick.reasons) all += line + "\n";
    EXPECT_NE(all.find("2 round features are stock parts"), std::string::npos) << all;
    EXPECT_NE(all.find("funnel is 4 in pipe"), std::string::npos) << all;
    EXPECT_NE(all.find("mast is 2 in pipe"), std::string::npos) << all;
    EXPECT_NE(all.find("Every panel lies on its sheet."), std::string::npos) << all;
}

TEST(ScalePick, WithoutMatchesTheMostToSpareAndThenARoundNumber) {
    // The nearest wall recedes with the scale until the floor, which does not, is nearer: 238 mm - 20 mm.
    const ScaleSurvey s = surveyScale(read(Crate().document()), 0.5, 1.15);
    ASSERT_TRUE(s.pick.scale);
    const double most = Crate().margin(1.1);
    EXPECT_NEAR(Crate().margin(*s.pick.scale), most, 1);
    EXPECT_NEAR(*s.pick.scale * 20, std::round(*s.pick.scale * 20), 1e-9) << *s.pick.scale;
}

TEST(ScalePick, WhatStandsInTheWayAndByHowMuch) {
    Crate c;
    c.centre = 150; // its foot stands in the floor at every scale
    const ScaleSurvey s = surveyScale(read(c.document()), 0.5, 1.1);
    EXPECT_FALSE(s.pick.scale);
    EXPECT_TRUE(s.feasible.empty());
    ASSERT_GE(s.pick.reasons.size(), 2U);
    EXPECT_EQ(s.pick.reasons[1], "the block meets crate/base, short by 32 mm.");
}

TEST(ScalePick, RoundNumbers) {
    EXPECT_DOUBLE_EQ(roundestIn(0.38, 0.404, 0.39), 0.4);
    EXPECT_DOUBLE_EQ(roundestIn(0.381, 0.399, 0.382), 0.39);
    EXPECT_DOUBLE_EQ(roundestIn(0.3811, 0.3814, 0.3812), 0.3812);
    EXPECT_DOUBLE_EQ(roundestIn(0.5, 0.5, 0.5), 0.5);
    EXPECT_DOUBLE_EQ(roundestIn(0.41, 0.58, 0.55), 0.5);
}

TEST(Pick, LiesOnTheMatchAndWhereWaysOutHold) {
    ScaleSurvey s;
    s.from = 0.4, s.to = 0.6;
    s.feasible = {{0.4, 0.6, {}, {}}};
    s.constraints = {{"fit:donor/seat", "seat"}};
    s.constraints[0].points = {{0.4, 10, 10}, {0.6, 30, 30}};
    EXPECT_EQ(pickScale(s), 0.6); // most to spare
    const auto match = [](double scale, const char* feature, bool shed) {
        return StockMatch{scale, scale - 0.004, scale + 0.004, feature, feature, "a pipe", 114, shed};
    };
    s.stock.matches = {match(0.4503, "funnel", true), match(0.5503, "mast", false)};
    EXPECT_NEAR(*pickScale(s), 0.4503, 0.0004) << "in the shed, though less is to spare";
    s.stock.matches[0].inShed = false;
    EXPECT_NEAR(*pickScale(s), 0.5503, 0.0004) << "just where it is the same";
    s.constraints.push_back({"exit:hatch", "the way out", Constraint::Unit::length, false, false});
    s.constraints[1].points = {{0.4, 5, 5}, {0.5, 0, 0}, {0.51, -1, -1}, {0.6, -9, -9}};
    EXPECT_NEAR(*pickScale(s), 0.4503, 0.0004) << "where one gets out";
    s.constraints[1].points = {{0.4, -5, -5}, {0.6, -9, -9}};
    EXPECT_NEAR(*pickScale(s), 0.5503, 0.0004) << "nowhere: worth having is no condition";
}

TEST(Constraint, WhatJumpsHasNoLines) {
    Constraint c{"sight:ground", "ground seen ahead"};
    c.points = {{0.4, 10, 10}, {0.5, -10, -10}};
    EXPECT_NEAR(*c.margin(0.44), 2, 1e-9);
    c.jumps = true;
    EXPECT_EQ(*c.margin(0.44), 10);
    EXPECT_EQ(*c.margin(0.46), -10);
}

TEST(Squeeze, TheLeastStretchIsTheClosedForm) {
    // At 0.55 the sides clear the block; the roof does not: it has to be 582 mm high, not 550.
    const auto tried = squeezes(read(Crate().document()), 0.55);
    ASSERT_TRUE(tried);
    const std::vector<Squeeze>& found = *tried;
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].axis, 2);
    EXPECT_GE(found[0].factor, 582.0 / 550 - 1e-9);
    EXPECT_LE(found[0].factor, 582.0 / 550 + squeezeStep);
    EXPECT_NEAR(found[0].more, 550 * (found[0].factor - 1), 1e-6);
    EXPECT_EQ(squeezeWords(found, {0.55}, UnitStyle{Unit::mm, 16, 0, true}).size(), 1U);
    // The sides too: neither alone does.
    Crate wide;
    wide.length = 600;
    EXPECT_TRUE(squeezes(read(wide.document()), 0.55)->empty());
}

TEST(Squeeze, ATooLowGateAsksForLessHeight) {
    // 0.6 of it clears the block everywhere and is 600 mm high over its floor; whatever gate asks for less
    // than it is asks for exactly that much.
    Project p = read(Crate().document());
    p.scale = "0.6";
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(p, Effort::survey);
    ASSERT_EQ(e.fit->state, FitState::fits);
    const double top = e.body->bounds.max.z(), tall = e.body->bounds.size().z();
    RoutePart gate;
    gate.name = gate.kind = "gate";
    gate.width = "10 m";
    gate.height = printExact(top - 0.01 * tall, Unit::mm);
    p.route = {gate};
    const auto tried = squeezes(p, 0.6);
    ASSERT_TRUE(tried) << tried.error().message;
    ASSERT_FALSE(tried->empty());
    const Squeeze& first = tried->front();
    EXPECT_EQ(first.axis, 2);
    EXPECT_LT(first.factor, 1);
    EXPECT_GT(first.factor, 0.97);
    EXPECT_LT(first.more, 0);
    EXPECT_TRUE(
        squeezeWords({first}, {0.6}, UnitStyle{Unit::mm, 16, 0, true})[0].starts_with("Lower alone by 1"));
}

TEST(Survey, PassagesAndTurnsAreCurvesAndThePickSaysWhatFails) {
    nlohmann::json d = Crate().document();
    d["passages"] = {{{"name", "shed door"}, {"width", "100 mm"}, {"height", "100 mm"}}};
    const ScaleSurvey survey = surveyScale(read(d), 0.6, 1.0);
    const Constraint* door = find(survey, "passage:shed door");
    ASSERT_NE(door, nullptr);
    EXPECT_FALSE(door->must);
    for (const Margin& m : door->points) EXPECT_LT(m.margin, -300) << "a crate of 600 mm and more";
    ASSERT_TRUE(survey.pick.scale);
    EXPECT_TRUE(survey.pick.reasons.front().starts_with("All that must holds"))
        << survey.pick.reasons.front();
    const auto says = [&](const char* words) {
        return std::any_of(survey.pick.reasons.begin(), survey.pick.reasons.end(),
                           [&](const std::string& r) { return r.find(words) != std::string::npos; });
    };
    EXPECT_TRUE(says("is too large for shed door"));
}

TEST(Squeeze, IsAdvisedWhereNoScaleFits) {
    const ScaleSurvey s = surveyScale(read(Crate().document()), 0.5, 0.56);
    EXPECT_FALSE(s.pick.scale);
    ASSERT_EQ(s.pick.reasons.size(), 3U);
    EXPECT_TRUE(s.pick.reasons[2].starts_with("Higher alone by 4")) << s.pick.reasons[2];
}
