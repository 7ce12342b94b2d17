// Seams, lids and modules in the whole pipeline: what the sheets, the totals and the report say of them.
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// A crate of 3 × 0.8 × 0.7 m with a hatch in its side; its long panels outgrow the sheet of 2.44 m.
json ferry() {
    json d = json::parse(
        textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "findings" / "base.json"));
    for (const char* list : {"base", "top"})
        for (json& point : d["forms"][0][list]) {
            point["x"] = point["x"] == "half" ? "1.5 m" : "-1.5 m";
            point["y"] = point["y"] == "half" ? "0.4 m" : "-0.4 m";
        }
    d["forms"][0]["top_z"] = "0.7 m";
    d["openings"] = json::array({{{"name", "exit"},
                                  {"plate", "crate/port"},
                                  {"shape", "rectangle"},
                                  {"u", "0"},
                                  {"v", "0"},
                                  {"width", "600 mm"},
                                  {"height", "400 mm"},
                                  {"purpose", "exit"},
                                  {"lid", true},
                                  {"lid_gap", "2 mm"},
                                  {"lap", "60 mm"}}});
    d["modules"] = json::array({{{"name", "top"}, {"plates", json::array({"crate/top"})}}});
    d["passages"] = json::array({{{"name", "shed door"}, {"width", "900 mm"}, {"height", "2 m"}}});
    return d;
}

Project projectOf(const json& document) {
    auto project = readProject(document.dump());
    if (!project) throw std::runtime_error(project.error().message);
    return *project;
}

/// Of every plate and piece that is cut.
std::set<std::string> namesOf(const std::vector<Panel>& panels) {
    std::set<std::string> names;
    for (const Panel& p : panels) names.insert(p.plates.begin(), p.plates.end());
    return names;
}

} // namespace

TEST(Cutting, SheetsTotalsAndReportSeeThePieces) {
    const Project project = projectOf(ferry());
    const Evaluation e = evaluated(project, Effort::full);
    const auto names = namesOf(*e.panels);
    for (const char* name : {"crate/top/a", "crate/top/b", "crate/port/a", "crate/port/b",
                             "crate/port/exit lid", "crate/port/exit lap a", "crate/port/strip"})
        EXPECT_TRUE(names.contains(name)) << name;
    EXPECT_FALSE(names.contains("crate/port"));
    EXPECT_TRUE(e.sheets->unplaced.empty());
    std::set<std::string> laid, cut;
    for (const Panel& p : *e.panels) cut.insert(p.name);
    for (const NestLayout& layout : e.sheets->layouts)
        for (const NestPlace& place : layout.places)
            laid.insert(e.nestProblem->parts[static_cast<std::size_t>(place.part)].id);
    EXPECT_EQ(laid, cut);
    EXPECT_EQ(e.totals.panels, static_cast<int>(e.panels->size()));

    Project bare = project;
    bare.openings[0].lid = false;
    const Evaluation without = evaluated(bare, Effort::full);
    double lid = 0; // the lid and its laps weigh what they take of the sheet
    for (const Plate& p : e.plates->plates)
        if (p.name.starts_with("crate/port/exit")) lid += p.volume * 600 / 1e9;
    EXPECT_GT(lid, 0);
    EXPECT_NEAR(e.totals.mass - without.totals.mass, lid, 1e-9);

    const json report = json::parse(reportJson(project, e));
    EXPECT_EQ(report["seams"].size(), e.seams->size());
    EXPECT_EQ(report["modules"].size(), 2U);
    EXPECT_EQ(report["modules"][0]["name"], "top");
    EXPECT_TRUE(report["modules"][1]["name"].is_null());
    EXPECT_TRUE(report["modules"][1]["passages"][0]["passes"].get<bool>());
    const std::string text = reportText(project, e);
    EXPECT_NE(text.find("Seams\n"), std::string::npos);
    EXPECT_NE(text.find("passes shed door by"), std::string::npos);
}

TEST(Cutting, ADraggedDocumentEqualsAFreshOne) {
    Project project = projectOf(ferry());
    Evaluator dragged;
    for (const char* scale : {"1", "0.7", "0.9", "1.2", "0.8", "1"}) {
        project.scale = scale;
        const Evaluation e = dragged.evaluate(project, Effort::full);
        const Evaluation fresh = evaluated(project, Effort::full);
        EXPECT_EQ(*e.panels, *fresh.panels) << scale;
        EXPECT_EQ(*e.seams, *fresh.seams) << scale;
        EXPECT_EQ(*e.modules, *fresh.modules) << scale;
        EXPECT_EQ(e.findings, fresh.findings) << scale;
    }
}

TEST(Cutting, ATickedPanelThatIsSplitSinceIsTold) {
    json document = ferry();
    document["stock"]["sheets"][0]["size"] = {"1220 mm", "4 m"};
    const Evaluation whole = evaluated(projectOf(document));
    const auto port = std::find_if(whole.panels->begin(), whole.panels->end(),
                                   [](const Panel& p) { return p.isOf("crate/port"); });
    ASSERT_NE(port, whole.panels->end());
    Project project = projectOf(ferry());
    CutPanel cut;
    cut.panel = "crate/port";
    cut.fingerprint = port->fingerprint;
    project.cut = {cut};
    const auto told = [](const Evaluation& e, const char* code) {
        return std::any_of(e.findings.begin(), e.findings.end(),
                           [&](const Finding& f) { return f.code == code; });
    };
    const Evaluation split = evaluated(project);
    EXPECT_TRUE(told(split, "cut-panel-changed"));
    const auto a = std::find_if(split.panels->begin(), split.panels->end(),
                                [](const Panel& p) { return p.name == "crate/port/a"; });
    ASSERT_NE(a, split.panels->end());
    project.cut[0].panel = "crate/port/a";
    project.cut[0].fingerprint = a->fingerprint;
    EXPECT_FALSE(told(evaluated(project), "cut-panel-changed"));
    EXPECT_FALSE(told(evaluated(project), "cut-panel-gone"));
}
