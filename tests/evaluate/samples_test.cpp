// The samples as a builder meets them: a clean punch list, and everything in them that they are to show.
#include "core/evaluate/stages.h"
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <map>
#include <set>

using namespace slab;
using namespace slab::test;

TEST(Samples, PunchListsHoldUsefulNotesOnly) {
    const std::set<std::string> useful = {"stock-nominal",   "side-split",     "belt-pinch",
                                          "turntable-pinch", "trunnion-pinch", "lid-from-inside",
                                          "gap-catches",     "exit-way",       "drive-lifts"};
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const Evaluation e = evaluated(sample(name), Effort::full);
        for (const Finding& f : e.findings) {
            EXPECT_EQ(f.severity, Severity::note) << name << ": " << f.message;
            EXPECT_TRUE(useful.contains(f.code)) << name << ": " << f.message;
        }
        EXPECT_EQ(e.fit->state, FitState::fits) << name;
    }
}

TEST(Samples, FireBoatHasABowInFacetsAndItsOpenings) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat);
    std::set<std::string> plates, holes;
    for (const Plate& p : e.plates->plates) {
        plates.insert(p.name);
        for (const PanelLoop& hole : p.holes) holes.insert(hole.opening);
    }
    for (const char* facet : {"hull/forefoot", "hull/lower bow", "hull/bow", "hull/upper bow"})
        EXPECT_TRUE(plates.contains(facet)) << facet;
    EXPECT_TRUE(plates.contains("hull/port#2")) << "the bow's side";
    EXPECT_FALSE(plates.contains("hull/port#3")) << "no slivers at the nose";
    for (const Opening& o : boat.openings) EXPECT_TRUE(holes.contains(o.name)) << o.name;
    EXPECT_TRUE(holes.contains("capstan")) << "a round form cuts its own hole";
    const auto pieces = [&](const char* name) {
        return std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                            [&](const Plate& p) { return p.name == name; })
            ->frame.origin.x();
    };
    EXPECT_LT(pieces("hull/port#1"), pieces("hull/port#2")) << "numbers run from stern to bow";
}

TEST(Samples, NamesStayWithTheirPlatesAtEveryScale) {
    // Numbered pieces too: each is where it was, in proportion.
    Project boat = sample("harbour-fire-boat");
    const auto places = [&](const char* scale) {
        boat.scale = scale;
        const Evaluation e = evaluated(boat);
        std::map<std::string, Vec3> all;
        for (const SkinFace& f : e.body->skin.faces)
            all[f.name] = e.body->skin.vertices[static_cast<std::size_t>(f.loops.front().front())] / e.scale;
        return all;
    };
    const auto first = places("2/5");
    for (const char* scale : {"0.21", "1/3", "0.5", "0.64", "1"}) {
        const auto here = places(scale);
        ASSERT_EQ(here.size(), first.size()) << scale;
        for (const auto& [name, at] : first) {
            ASSERT_TRUE(here.contains(name)) << name << " at " << scale;
            EXPECT_LT((here.at(name) - at).norm(), 1e-6) << name << " at " << scale;
        }
    }
}

TEST(Samples, ReportsHoldNoMinusZero) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const Project project = sample(name);
        const std::string report = reportJson(project, evaluated(project));
        EXPECT_EQ(report.find("-0.0,"), std::string::npos) << name;
        EXPECT_EQ(report.find("-0.0\n"), std::string::npos) << name;
    }
}

TEST(UnknownNames, PlatesOfAMissingSheetAreDrawnInAnother) {
    const Project crawler = sample("moon-crawler");
    const Evaluation sound = evaluated(crawler);
    Project lost = crawler;
    lost.materials.fallback = "walnut";
    lost.materials.plates.push_back({"cabin/top", "oak"});
    const auto again = readProject(writeProject(lost));
    ASSERT_TRUE(again) << again.error().message;
    const Evaluation e = evaluated(*again);
    EXPECT_EQ(std::count_if(e.findings.begin(), e.findings.end(),
                            [](const Finding& f) { return f.code == "unknown-stock"; }),
              2)
        << "one for each name";
    EXPECT_EQ(e.findings.front().severity, Severity::stop);
    ASSERT_EQ(e.plates->plates.size(), sound.plates->plates.size());
    EXPECT_NEAR(e.plates->plates.front().thickness, sound.plates->plates.front().thickness, 1e-12);
    lost.stock.sheets.clear();
    EXPECT_TRUE(evaluated(lost).plates->plates.empty()) << "nothing to draw them in";
    lost.donor.kind = "hovercraft";
    lost.rider.table = "giants";
    EXPECT_TRUE(readProject(writeProject(lost)));
}
