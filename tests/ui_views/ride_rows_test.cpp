// What the lists of Ride say, and the ready parts of a route.
#include "core/document/file.h"
#include "core/trial/figures.h"
#include "tests/ui_views/ride_bench.h"
#include "ui/ride/ride_rows.h"
#include <gtest/gtest.h>
#include <set>

namespace slab::ui {
namespace {

using trial::Outcome;

RideRow rowNamed(const RideRows& rows, const QString& title) {
    for (const RideRow& row : rows)
        if (!row.heading && row.title == title) return row;
    ADD_FAILURE() << "no row " << title.toStdString();
    return {};
}

TEST(RideRows, TellFirstWhereItTips) {
    const Project p = test::rideProject();
    const RideRows rows = standRows(p, test::rideEvaluation(p), 0);
    ASSERT_GT(rows.size(), 6U);
    // tan θ = distance / height, ISO 7176-1: atan(250 / 500) = 26.6°, atan(300 / 500) = 31.0°.
    EXPECT_EQ(rows[1].value, "26.6°");
    EXPECT_TRUE(rows[1].word.contains("first"));
    EXPECT_EQ(rows[1].outcome, Outcome::passes);
    EXPECT_EQ(rowNamed(rows, "forward").value, "31.0°");
    for (std::size_t i = 2; i < 5; ++i) EXPECT_FALSE(rows[i].word.contains("first"));
}

TEST(RideRows, WheelLoadsAreOfTheStandingThatIsAsked) {
    const Project p = test::rideProject();
    const Evaluation e = test::rideEvaluation(p);
    // 200 kg over the middle of four wheels.
    EXPECT_EQ(rowNamed(standRows(p, e, 0), "front left wheel").value, "50 kg");
    // Uphill of 1:12 the weight's line meets the ground 500 / 12 = 41.7 mm behind: 2 · 50 (300 − 41.7) / 600,
    // of a weight of cos(atan(1 / 12)).
    EXPECT_EQ(rowNamed(standRows(p, e, 1), "front left wheel").value, "43 kg");
    EXPECT_EQ(rowNamed(standRows(p, e, 1), "rear left wheel").value, "57 kg");
}

TEST(RideRows, TellLoadTurnAndWind) {
    const Project p = test::rideProject();
    const RideRows rows = standRows(p, test::rideEvaluation(p), 0);
    const RideRow load = rowNamed(rows, "On the donor");
    EXPECT_EQ(load.value, "118 kg");
    EXPECT_EQ(load.outcome, Outcome::tight) << "over 80 % of 136 kg, under all of it";
    EXPECT_TRUE(load.details.contains("136 kg")) << load.details.toStdString();
    // v² = g R d / h, T / 2H as the static stability factor: √(9.80665 · 1.5 · 0.5) = 2.71 m/s = 9.8 km/h.
    const RideRow turn = rowNamed(rows, "turn of 1500 mm");
    EXPECT_EQ(turn.value, "9.8 km/h");
    EXPECT_EQ(turn.outcome, Outcome::passes);
    EXPECT_EQ(rowNamed(rows, "10 kg of ballast low under the middle").word, "better by 1.1°");
    EXPECT_EQ(rowNamed(rows, "the donor moved 50 mm back under the shell").word, "worse by 0.6°");
}

TEST(RideRows, ThePartsOfTheRouteHaveTheirPlaceInTheDocument) {
    const Project p = test::rideProject();
    const RideRows rows = routeRows(p, test::rideEvaluation(p));
    const RideRow door = rowNamed(rows, "shed door");
    EXPECT_EQ(door.outcome, Outcome::fails);
    EXPECT_EQ(door.word, "does not pass");
    EXPECT_EQ(door.value, "−40 mm");
    EXPECT_EQ(door.place.part, "/route/0");
    EXPECT_EQ(door.place.plate, "hull/port");
    EXPECT_EQ(rowNamed(rows, "ramp").place.part, "/route/1");
    EXPECT_EQ(rowNamed(rows, "old gate").word, "left out");
    EXPECT_EQ(worstOf(rows), Severity::stop);
    EXPECT_EQ(summaryOf("Route", rows), "Route · 1 stop · 1 look");
    for (const RideRow& row : rows) EXPECT_FALSE(row.spoken().isEmpty());
}

TEST(RideRows, SpeakTheBuildersUnits) {
    Project p = test::rideProject();
    p.units = "ft";
    const Evaluation e = test::rideEvaluation(p);
    EXPECT_TRUE(rowNamed(routeRows(p, e), "shed door").value.contains("″"));
    EXPECT_TRUE(rowNamed(standRows(p, e, 0), "front left wheel").value.contains("lb"));
    for (const RideRows& rows : {standRows(p, e, 0), sightRows(p, e)})
        for (const RideRow& row : rows) EXPECT_FALSE(row.value.contains("mm")) << row.spoken().toStdString();
}

TEST(RideRows, TellWhatIsSeenAndWhatOneGetsOutBy) {
    const Project p = test::rideProject();
    const Evaluation e = test::rideEvaluation(p);
    const RideRows seen = sightRows(p, e);
    EXPECT_EQ(rowNamed(seen, "ground ahead from").outcome, Outcome::fails) << "2400 mm, wanted 1900";
    EXPECT_EQ(rowNamed(seen, "open to port").outcome, Outcome::passes);
    EXPECT_EQ(rowNamed(seen, "open to starboard").outcome, Outcome::tight) << "0.5 rad of 0.6";
    const QString slit = rowNamed(seen, "sight").details;
    EXPECT_TRUE(slit.contains("Lower it by 13 mm") && slit.contains("137 mm")) << slit.toStdString();
    const RideRows out = leavingRows(p, e);
    EXPECT_EQ(rowNamed(out, "exit").value, "560 mm × 500 mm");
    EXPECT_TRUE(rowNamed(out, "exit").details.contains("donor/seat stands before it"));
    EXPECT_EQ(rowNamed(out, "above the shoulders").outcome, Outcome::tight);
    EXPECT_EQ(rowNamed(out, "below the shoulders").outcome, Outcome::passes);
    EXPECT_TRUE(out.back().details.contains("Local rules govern"));
    Evaluation none = e;
    none.findings.push_back({Severity::look, "exit-none", "Nothing is there to get out by.", {}, "", {}});
    auto bare = std::make_shared<trial::Trial>(*e.trial);
    bare->waysOut.clear();
    none.trial = bare;
    EXPECT_EQ(rowNamed(leavingRows(p, none), "No opening is an exit").outcome, Outcome::fails);
    none.findings.clear();
    EXPECT_FALSE(rowNamed(leavingRows(p, none), "No opening is an exit").outcome) << "a side is open";
}

TEST(RideRows, WeighAsThePunchListDoes) {
    const Project p = test::rideProject();
    const Evaluation e = test::rideEvaluation(p);
    const RideRows seen = sightRows(p, e), out = leavingRows(p, e), stands = standRows(p, e, 0);
    EXPECT_EQ(rowNamed(seen, "ground ahead from").severity(), Severity::look) << "too late, and no stop";
    EXPECT_EQ(rowNamed(seen, "open to starboard").severity(), Severity::look);
    EXPECT_FALSE(rowNamed(seen, "open to port").severity());
    EXPECT_EQ(rowNamed(out, "exit").severity(), Severity::look) << "a look and a note";
    EXPECT_EQ(rowNamed(out, "opening hand").severity(), Severity::note);
    EXPECT_EQ(rowNamed(out, "crane/tube and crane base/drum").severity(), Severity::note);
    EXPECT_EQ(summaryOf("Sight", seen), "Sight · 2 looks");
    EXPECT_EQ(summaryOf("Getting out", out), "Getting out · 2 looks") << "and three notes";
    EXPECT_EQ(summaryOf("Stands", stands), "Stands · 1 look");
    std::size_t told = 0;
    for (const RideRows& rows : {seen, out, stands, routeRows(p, e)})
        for (const RideRow& row : rows) told += row.told.size();
    EXPECT_EQ(told, test::handFindings().size()) << "each stands at its row";
}

TEST(RideRows, WhatIsToldOfAPartOfTheRouteStandsThere) {
    const Project p = test::rideProject();
    const RideRow ramp = rowNamed(routeRows(p, test::rideEvaluation(p)), "ramp");
    EXPECT_EQ(ramp.outcome, Outcome::passes);
    EXPECT_EQ(ramp.severity(), Severity::look) << "steeper than ramps are built";
    EXPECT_TRUE(ramp.details.contains("rises 1:8")) << ramp.details.toStdString();
}

TEST(RideRows, AShellThatTakesNoRampSaysSo) {
    const Project p = test::rideProject();
    Evaluation e = test::rideEvaluation(p);
    trial::Trial t = *e.trial;
    t.ramps = trial::Ramps{};
    t.ramps->angles.approach = 0;
    t.ramps->angles.breakover = 4.7 * 0.0174533; // atan(1 / 12) = 4.76°
    t.ramps->angles.departure = 4.8 * 0.0174533;
    e.trial = std::make_shared<const trial::Trial>(t);
    const RideRows rows = standRows(p, e, 0);
    EXPECT_EQ(rowNamed(rows, "on to a slope").outcome, Outcome::tight);
    EXPECT_TRUE(rowNamed(rows, "on to a slope").word.contains("mildest ramp"));
    EXPECT_EQ(rowNamed(rows, "over a crest").outcome, Outcome::tight);
    EXPECT_FALSE(rowNamed(rows, "off a slope").outcome);
}

TEST(RouteExamples, AreSoundPartsWithTheirSections) {
    Project p = test::handProject();
    for (const trial::RouteExample& example : trial::routeExamples()) {
        auto added = trial::addToRoute(example.part).apply(p);
        ASSERT_TRUE(added.has_value());
        p = std::move(*added);
        EXPECT_FALSE(example.part.note.empty()) << example.words;
    }
    std::set<std::string> names;
    for (const RoutePart& part : p.route) EXPECT_TRUE(names.insert(part.name).second) << part.name;
    const auto back = readProject(writeProject(p));
    ASSERT_TRUE(back.has_value()) << back.error().message;
    EXPECT_TRUE(back->route == p.route);
    std::vector<Finding> findings;
    const auto figures = trial::resolveRoute(p, Scope{}, findings);
    EXPECT_EQ(figures.size(), p.route.size());
    for (const Finding& f : findings) ADD_FAILURE() << f.message;
    // 2010 ADA Standards 404.2.3, 304.3.1: 32 in and 60 in.
    EXPECT_NEAR(figures.front().width, 812.8, 1e-9);
    const auto circle = std::find_if(figures.begin(), figures.end(),
                                     [](const auto& f) { return f.kind == "turning_circle"; });
    ASSERT_NE(circle, figures.end());
    EXPECT_NEAR(circle->diameter, 1524, 1e-9);
    const auto kerb =
        std::find_if(figures.begin(), figures.end(), [](const auto& f) { return f.kind == "kerb_ramp"; });
    ASSERT_NE(kerb, figures.end());
    EXPECT_NEAR(kerb->slope, 1.0 / 12, 1e-9) << "405.2";
}

} // namespace
} // namespace slab::ui
