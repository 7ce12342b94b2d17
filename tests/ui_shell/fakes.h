#pragma once
#include "core/document/file.h"
#include "core/survey/survey.h"
#include "ui/session/session.h"
#include <QFile>
#include <gtest/gtest.h>
#include <string>

namespace slab::ui::test {

/// The pipeline left out: only the scope, which the tables read.
inline Evaluation scopeOnly(const Project& project, std::uint64_t revision) {
    Evaluation e;
    e.revision = revision;
    e.scale = parseRatio(project.scale).value_or(1.0);
    std::vector<NamedFormula> named;
    for (const Dimension& d : project.dimensions) named.push_back({d.name, d.value, d.space});
    e.scope = std::make_shared<Scope>(evaluateAll(named, e.scale, styleFor(project.units).unit).scope);
    return e;
}

inline Engine quickEngine() {
    return {
        [](const Project& p, Effort, std::uint64_t revision, const Job&) { return scopeOnly(p, revision); },
        [](const Project&, double from, double to, const Job&) {
            ScaleSurvey s;
            s.from = from;
            s.to = to;
            s.bands = {{from, (from + to) / 2, FitState::hits, {{from, "donor/seat – hull/port"}}},
                       {(from + to) / 2, to, FitState::fits, {}}};
            s.sheetSteps = {{from, 3}, {(from + to) / 2, 5}};
            s.leastFitting = (from + to) / 2;
            s.feasible = {{(from + to) / 2, to, "", ""}};
            // Nothing to spare in the middle of the rule, 100 mm at its end.
            Constraint seat{"fit:donor/seat", "seat"};
            seat.points = {{from, -100, 0, "hull/port"}, {to, 100, 120, "hull/port"}};
            s.constraints = {seat};
            s.stock.matches = {{from + (to - from) * 0.9, from + (to - from) * 0.85, to, "form:funnel",
                                "funnel", "4 in pipe", 114.3, true}};
            s.pick.scale = from + (to - from) * 0.75;
            s.pick.reasons = {"Everything holds."};
            s.currency = "$";
            s.sheetSteps[0].cost = 60;
            return s;
        }};
}

inline Project sample(const char* name) {
    auto project = loadProject(std::string(SLABSIDE_SOURCE_DIR) + "/samples/" + name + ".slabside.json");
    EXPECT_TRUE(project.has_value()) << (project ? "" : project.error().message + project.error().where);
    return project.value_or(Project{});
}

} // namespace slab::ui::test
