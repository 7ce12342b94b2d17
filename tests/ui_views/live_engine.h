#pragma once
// The whole pipeline as it runs while something is dragged: no confirmation, no long nesting, no survey.
#include "core/survey/survey.h"
#include "core/evaluate/evaluate.h"
#include "ui/session/session.h"
#include <memory>

namespace slab::test {

inline ui::Engine liveEngine() {
    const auto evaluator = std::make_shared<Evaluator>();
    return {[evaluator](const Project& project, Effort, std::uint64_t revision, const Job& job) {
                return evaluator->evaluate(project, Effort::live, revision, job);
            },
            [](const Project&, double from, double to, const Job&) {
                ScaleSurvey survey;
                survey.from = from;
                survey.to = to;
                return survey;
            }};
}

} // namespace slab::test
