// A blank on its way through the whole pipeline: one part for sheets, totals, drawings and the report.
#include "core/pack/drawings.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

using namespace slab;
using nlohmann::json;

namespace {

/// The crate of 1 m, 12 mm thick, with folds between the named sides.
Project crate(const std::vector<std::pair<std::string, std::string>>& folds) {
    json document = json::parse(
        textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "findings" / "base.json"));
    document["joints"]["edges"] = json::array();
    for (const auto& [a, b] : folds)
        document["joints"]["edges"].push_back({{"between", {"crate/" + a, "crate/" + b}}, {"joint", "fold"}});
    return *readProject(document.dump());
}

Evaluation foldsOf(const Project& project) {
    Evaluator evaluator;
    return evaluator.evaluate(project, Effort::full);
}

const Panel& blankOf(const Evaluation& e) {
    return *std::find_if(e.panels->begin(), e.panels->end(), [](const Panel& p) { return !p.folds.empty(); });
}

Ring ringOf(const json& points) {
    Ring ring;
    for (const json& p : points) ring.emplace_back(p[0].get<double>(), p[1].get<double>());
    return ring;
}

void expectSame(const Ring& a, const Ring& b, const char* what) {
    ASSERT_EQ(a.size(), b.size()) << what;
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_LT((a[i] - b[i]).norm(), 1e-9) << what << " " << i;
}

} // namespace

TEST(Blank, IsOnePartOnTheSheetsAndInTheTotals) {
    const Evaluation single = foldsOf(crate({})), folded = foldsOf(crate({{"port", "front"}}));
    EXPECT_TRUE(folded.findings.empty());
    EXPECT_EQ(folded.totals.plates, 6);
    const Panel& blank = blankOf(folded);
    EXPECT_EQ(blank.plates, (std::vector<std::string>{"crate/front", "crate/port"}));
    EXPECT_EQ(blank.name, "crate/front + port");
    const auto part = std::find_if(folded.nestProblem->parts.begin(), folded.nestProblem->parts.end(),
                                   [&](const NestPart& p) { return p.id == blank.name; });
    ASSERT_NE(part, folded.nestProblem->parts.end());
    EXPECT_EQ(part->copies, 1);
    EXPECT_FALSE(part->flip);
    int placed = 0, parts = 0, wanted = 0;
    for (const NestLayout& layout : folded.sheets->layouts)
        for (const NestPlace& place : layout.places) {
            ++parts;
            placed += folded.nestProblem->parts[static_cast<std::size_t>(place.part)].id == blank.name;
        }
    for (const NestPart& p : folded.nestProblem->parts) wanted += p.copies;
    EXPECT_EQ(placed, 1);
    EXPECT_EQ(parts, wanted);
    EXPECT_EQ(wanted, 5) << "six plates, two of them in one blank";
    // The fold is no cut: both sides of the shared edge are spared.
    EXPECT_NEAR(single.totals.mass, folded.totals.mass, 0.05 * single.totals.mass);
    const PanelFold& fold = blank.folds.front();
    double outlines = 0;
    for (const Panel& p : *folded.panels)
        for (const PanelEdge& e : p.boundary.edges) outlines += e.length * static_cast<double>(p.copyCount());
    EXPECT_NEAR(folded.totals.cutLength, outlines, 1e-6);
    double plates = 0;
    for (const Plate& p : folded.plates->plates)
        for (const PanelEdge& e : p.boundary.edges) plates += e.length;
    EXPECT_NEAR(plates - outlines, 2 * (fold.to - fold.from).norm(), 1e-6);
}

TEST(Blank, ReportAndDrawingsShowTheSameLines) {
    const Project project = crate({{"port", "front"}, {"front", "starboard"}});
    const Evaluation e = foldsOf(project);
    const Panel& blank = blankOf(e);
    const json report = json::parse(reportJson(project, e));
    const auto panel = std::find_if(report["panels"].begin(), report["panels"].end(),
                                    [&](const json& p) { return p["name"] == blank.name; });
    ASSERT_NE(panel, report["panels"].end());
    expectSame(ringOf((*panel)["outer_mm"]), blank.boundary.outer, "outer");
    ASSERT_EQ((*panel)["folds"].size(), 2U);
    ASSERT_EQ((*panel)["parts"].size(), 3U);
    const Page svg = panelSvgPage(blank, Ink::plywood);
    const auto layer = [&](const std::string& name) -> const Layer& {
        const auto& all = svg.groups.front().layers;
        return *std::find_if(all.begin(), all.end(), [&](const Layer& l) { return l.name == name; });
    };
    ASSERT_EQ(layer("outer").strokes.size(), 1U);
    expectSame(layer("outer").strokes.front().points, blank.boundary.outer, "svg");
    for (const json& fold : (*panel)["folds"]) {
        EXPECT_EQ(fold["kind"], "convex");
        EXPECT_EQ(fold["groove_face"], "inside");
        EXPECT_NEAR(fold["fold_deg"].get<double>(), 90, 1e-9);
        EXPECT_NEAR(fold["groove_width_mm"].get<double>(), 2 * 12, 1e-9);
        const Ring line = ringOf(json::array({fold["from_mm"], fold["to_mm"]}));
        EXPECT_NEAR((line[1] - line[0]).norm(), fold["length_mm"].get<double>(), 1e-9);
        const auto& strokes = layer("folds").strokes;
        EXPECT_TRUE(std::any_of(strokes.begin(), strokes.end(), [&](const Stroke& s) {
            return s.dash == Dash::dashDot && s.points.size() == 2 && (s.points[0] - line[0]).norm() < 1e-9 &&
                   (s.points[1] - line[1]).norm() < 1e-9;
        }));
    }
    // The template of the blank has its lines too, moved onto the page; nothing else tells its folds.
    std::size_t told = 0;
    TemplateOptions options = templateOptions(project, e, blank, *paperNamed("roll 914 mm"));
    for (const Page& page : templatePages(blank, options))
        for (const Layer& l : page.overlay.layers)
            for (const Label& label : l.labels) told += label.text == "fold 90°, groove inside 24 mm";
    EXPECT_GE(told, 2U);
}

// A plate's own flat coordinates, turned and moved as the report says, are its part of the blank.
TEST(Blank, PartsAreThePlatesTurnedAndMoved) {
    const Project project = crate({{"port", "front"}, {"front", "top"}});
    const Evaluation e = foldsOf(project);
    const json report = json::parse(reportJson(project, e));
    for (const json& panel : report["panels"])
        for (const json& part : panel["parts"]) {
            const auto plate = std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                                            [&](const Plate& p) { return p.name == part["plate"]; });
            ASSERT_NE(plate, e.plates->plates.end());
            const double turn = part["turn_deg"].get<double>() * std::acos(-1.0) / 180;
            const Eigen::Rotation2Dd rotation(turn);
            const Vec2 shift(part["shift_mm"][0].get<double>(), part["shift_mm"][1].get<double>());
            Ring moved;
            for (const Vec2& p : plate->boundary.outer) moved.push_back(rotation * p + shift);
            expectSame(moved, ringOf(part["outer_mm"]), "part");
        }
    EXPECT_EQ(blankOf(e).parts.size(), 3U);
}
