// The punch list of a boat that is wrong in four ways says those things, where, and what to do; nothing else
// of the ride.
#include "core/donor/measuring.h"
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;

namespace {

std::map<std::string, Finding> loudOf(const Evaluation& e) {
    std::map<std::string, Finding> out;
    for (const Finding& f : e.findings)
        if (f.severity != Severity::note) {
            EXPECT_FALSE(out.contains(f.code) && f.code != "fit-tight") << f.code << " twice: " << f.message;
            out[f.code] = f;
        }
    return out;
}

bool says(const Finding& f, const std::string& words) {
    return f.message.find(words) != std::string::npos;
}
bool advises(const Finding& f, const std::string& words) {
    return f.remedy.find(words) != std::string::npos;
}
bool about(const Finding& f, const std::string& thing) {
    return std::find(f.about.begin(), f.about.end(), thing) != f.about.end();
}

} // namespace

TEST(Ride, PunchListOfABoatWrongInFourWays) {
    Project boat = sample("harbour-fire-boat");
    boat.rider.sex = "male";
    boat.rider.percentile = "99"; // too big for his feet, for the way out and for the donor's rated load
    boat.route.clear();
    boat.route.resize(2);
    boat.route[0].name = "shop door";
    boat.route[0].width = "34 in"; // 32 in and a little: ADA 2010 404.2.3 asks for 32 in
    boat.route[0].height = "79 in";
    boat.route[1].name = "loading ramp";
    boat.route[1].kind = "ramp";
    boat.route[1].slope = "1/8";
    boat.route[1].rise = "12 in";
    for (Opening& o : boat.openings)
        if (o.name == "sight") o.v = "-0.35 m"; // too low
    const Evaluation e = evaluated(boat, Effort::verdict);
    auto loud = loudOf(e);
    std::vector<std::string> codes;
    for (const auto& [code, f] : loud) codes.push_back(code);
    EXPECT_EQ(codes, (std::vector<std::string>{"exit-small", "fit-tight", "load-share", "ramp-steep",
                                               "route-blocked", "sight-ahead", "sight-ground"}));
    EXPECT_TRUE(says(loud["fit-tight"], "foot"));
    EXPECT_TRUE(about(loud["exit-small"], "opening:exit") && advises(loud["exit-small"], "wider"));
    EXPECT_FALSE(advises(loud["exit-small"], "taller")) << "it is high enough: " << loud["exit-small"].remedy;
    EXPECT_FALSE(advises(loud["sight-ground"], "lower"))
        << "raising cures both: " << loud["sight-ground"].remedy;
    const Finding& door = loud["route-blocked"];
    EXPECT_TRUE(says(door, "shop door") && says(door, "short across") && says(door, "rub rail"))
        << door.message;
    EXPECT_TRUE(about(door, "document:/route/0") && about(door, "plate:rub rail port/plate"));
    EXPECT_TRUE(advises(door, "narrower"));
    EXPECT_TRUE(door.at.has_value());
    const Finding& ramp = loud["ramp-steep"];
    EXPECT_TRUE(says(ramp, "loading ramp is as steep as 1:8 (7.1°)") && says(ramp, "1:12")) << ramp.message;
    EXPECT_TRUE(advises(ramp, "12′ 0″ long")) << ramp.remedy; // 12 in at 1:12
    EXPECT_TRUE(ramp.at.has_value());
    const Finding& slit = loud["sight-ahead"];
    EXPECT_TRUE(says(slit, "opening sight lies") && says(slit, "below the rider's eyes")) << slit.message;
    EXPECT_TRUE(about(slit, "opening:sight") && about(slit, "plate:wheelhouse/front"));
    EXPECT_TRUE(advises(slit, "Raise it by")) << slit.remedy;
    EXPECT_TRUE(slit.at.has_value());

    // What it advises, done: the slit goes up by just what is told.
    const double raise = [&] {
        for (const trial::OpeningSeen& o : e.trial->views.front().openings)
            if (o.opening == "sight") return o.raise;
        return 0.0;
    }();
    EXPECT_GT(raise, 100);
    for (Opening& o : boat.openings)
        if (o.name == "sight") o.v = printExact(-350 + raise / e.scale, Unit::mm);
    const Evaluation mended = evaluated(boat, Effort::verdict);
    EXPECT_FALSE(loudOf(mended).contains("sight-ahead"));
}

TEST(Ride, IsReported) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat, Effort::verdict);
    const auto report = nlohmann::json::parse(reportJson(boat, e));
    const auto& ride = report["ride"];
    EXPECT_EQ(ride["route"].size(), boat.route.size());
    for (const auto& part : ride["route"]) EXPECT_EQ(part["outcome"], "passes") << part["words"];
    EXPECT_GT(ride["stands"]["least_tip"]["angle_deg"].get<double>(), 10);
    EXPECT_EQ(ride["exits"][0]["outcome"], "passes");
    EXPECT_EQ(ride["exits"][0]["path_mm"].size(), 3U) << "over the seat's back";
    EXPECT_FALSE(ride["cautions"].empty());
    const double carried = ride["stands"]["carried_kg"], all = ride["stands"]["aboard"]["mass_kg"];
    EXPECT_NEAR(carried, all - 110, 1e-9);
    EXPECT_NE(reportText(boat, e).find("\nRide\n"), std::string::npos);
}

TEST(Ride, ReportTellsHowTheMeasuringSheetAgrees) {
    Project boat = sample("harbour-fire-boat");
    boat.donor.changes.clear();
    const auto sheet = measuringSheet(boat.donor.kind);
    const auto sizes = donorSizes(boat.donor.kind);
    constexpr double wrong = 60; // mm more than the first length that others check
    std::string letter;
    for (const Measure& m : sheet) {
        double value = valueOf(m.sum, sizes);
        if (letter.empty() && m.kind == Kind::length && m.sum.terms.size() > 1) {
            value += wrong;
            letter = m.letter;
        }
        boat.donor.measures.push_back(
            {m.letter, printExact(m.kind == Kind::angle ? value * 180 / M_PI : value,
                                  m.kind == Kind::angle    ? Unit::deg
                                  : m.kind == Kind::length ? Unit::mm
                                                           : Unit::none)});
    }
    const auto report = nlohmann::json::parse(reportJson(boat, evaluated(boat, Effort::live)));
    ASSERT_EQ(report["measures"].size(), sheet.size());
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        const auto& row = report["measures"][i];
        EXPECT_EQ(row["letter"], sheet[i].letter);
        EXPECT_NEAR(row["read"].get<double>() - row["fitted"].get<double>(), row["residual"].get<double>(),
                    1e-9);
        if (row["letter"] != letter) continue;
        ASSERT_GT(row["checked"].get<double>(), 0);
        EXPECT_NEAR(row["read"].get<double>() - row["by_the_others"].get<double>(), wrong, 1e-6);
    }
}

TEST(Ride, WhatComesNearAsItTurnsIsAGapThatCloses) {
    const Evaluation e = evaluated(sample("harbour-fire-boat"), Effort::verdict);
    int closing = 0;
    for (const SweptCheck& c : e.mechanisms->checks) {
        const bool told = std::any_of(e.trial->gaps.begin(), e.trial->gaps.end(), [&](const trial::Gap& g) {
            return g.moving && g.what == c.moving + " and " + c.fixed;
        });
        // 12 mm does not protect a fingertip (EN 71-1:2005+A8 A.14); what is the same in every pose cannot
        // close.
        EXPECT_EQ(told, !c.at.empty() && c.clearance >= 0 && c.clearance < 12) << c.moving << ", " << c.fixed;
        closing += told;
    }
    EXPECT_EQ(closing, 1) << "the monitor's tube, raised over its drum";
}
