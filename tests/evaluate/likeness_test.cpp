// What the report tells of curves and of faces made flat, from a document with ellipse arcs and splines.
#include "core/likeness/likeness.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

using namespace slab;
using nlohmann::json;

namespace {

Project launch() {
    const auto path = std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "documents" /
                      "curved-launch.slabside.json";
    auto project = readProject(textOf(path));
    EXPECT_TRUE(project) << (project ? "" : project.error().message + " " + project.error().where);
    return project ? *project : Project{};
}

} // namespace

TEST(CurvedLaunch, ReportTellsDeviationsLikenessAndMoves) {
    const Project project = launch();
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(project, Effort::live);
    for (const Finding& f : e.findings) EXPECT_NE(f.severity, Severity::stop) << f.code << ": " << f.message;
    const json report = json::parse(reportJson(project, e));

    ASSERT_EQ(report["curves"].size(), 6U);
    double worst = 0;
    for (const json& curve : report["curves"])
        worst = std::max(worst, curve["greatest_deviation_mm"].get<double>());
    // The funnel's quarters are circles of 100 mm at half size, in two facets each.
    EXPECT_NEAR(report["curves"][2]["greatest_deviation_mm"].get<double>(),
                100 * (1 - std::cos(std::numbers::pi / 8)), 1e-6);
    EXPECT_LE(report["curves"][1]["greatest_deviation_mm"].get<double>(), 6 * (1 + 1e-9))
        << "its tolerance of 12 mm at half size";

    const json& likeness = report["likeness"];
    EXPECT_LE(likeness["greatest_mm"].get<double>(), worst * (1 + 1e-9));
    EXPECT_GT(likeness["greatest_mm"].get<double>(), 0.9 * worst);
    EXPECT_GT(likeness["mean_mm"].get<double>(), 0);
    EXPECT_LT(likeness["mean_mm"].get<double>(), likeness["greatest_mm"].get<double>());
    EXPECT_EQ(likeness["plates"].get<std::size_t>(), e.body->skin.faces.size());
    EXPECT_EQ(surveyLikeness(project, *e.scope).now.plates, likeness["plates"].get<int>());

    ASSERT_EQ(report["made_flat"].size(), 1U);
    EXPECT_EQ(report["made_flat"][0]["form"], "locker");
    const double move = report["made_flat"][0]["move_mm"].get<double>();
    EXPECT_GT(move, 0.1);
    EXPECT_LT(move, 25);
    const std::string text = reportText(project, e);
    EXPECT_NE(text.find("locker made flat"), std::string::npos) << text;
    // Six plates: none was split.
    EXPECT_EQ(std::count_if(e.body->skin.faces.begin(), e.body->skin.faces.end(),
                            [](const SkinFace& f) { return f.form == "locker"; }),
              6);
}

TEST(CurvedLaunch, ReportIsSilentWithoutCurves) {
    Project project = launch();
    project.forms.erase(project.forms.begin(), project.forms.begin() + 2);
    std::get<FacetShape>(project.forms[0].shape).flatten = false;
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(project, Effort::live);
    const json report = json::parse(reportJson(project, e));
    EXPECT_TRUE(report["likeness"].is_null());
    EXPECT_TRUE(report["made_flat"].empty());
    EXPECT_EQ(reportText(project, e).find("\nLikeness\n"), std::string::npos);
}
