#include "core/survey/steps.h"
#include <algorithm>
#include <cmath>

namespace slab {

std::vector<ScaleSurvey::Step> joinedSteps(const std::vector<ScaleSurvey::Step>& all) {
    std::vector<ScaleSurvey::Step> steps;
    for (const ScaleSurvey::Step& s : all)
        if (steps.empty() || steps.back().tooLarge != s.tooLarge ||
            (s.tooLarge == 0 && steps.back().sheets != s.sheets))
            steps.push_back(s);
        else
            steps.back().cost = std::max(steps.back().cost, s.cost);
    return steps;
}

std::vector<ScaleSurvey::Step> stepsOf(const std::vector<SurveySample>& samples) {
    std::vector<ScaleSurvey::Step> counts;
    int least = 1 << 20;
    double cheapest = 1e300;
    for (auto at = samples.rbegin(); at != samples.rend(); ++at) {
        if (!at->step) continue;
        ScaleSurvey::Step step = *at->step;
        if (step.tooLarge == 0) {
            step.sheets = least = std::min(least, step.sheets);
            step.cost = cheapest = std::min(cheapest, step.cost);
        }
        counts.push_back(step);
    }
    std::reverse(counts.begin(), counts.end());
    return joinedSteps(counts);
}

void learnLayout(ScaleSurvey& survey, double scale, int sheets, double cost) {
    std::vector<ScaleSurvey::Step>& steps = survey.sheetSteps;
    const auto after =
        std::find_if(steps.begin(), steps.end(), [&](const auto& s) { return s.scale > scale; });
    if (after == steps.begin() || sheets <= 0) return;
    const auto here = static_cast<std::size_t>(after - steps.begin()) - 1;
    if (steps[here].tooLarge > 0 || steps[here].sheets <= sheets) return;
    const double end = after == steps.end() ? survey.to : after->scale;
    const double cell = (survey.to - survey.from) / surveyCells;
    const double next = survey.from + cell * (std::floor((scale - survey.from) / cell + 1e-9) + 1);
    if (next < end - cell / 2) {
        ScaleSurvey::Step rest = steps[here];
        rest.scale = next;
        steps.insert(after, rest);
    }
    for (std::size_t i = 0; i <= here; ++i) {
        if (steps[i].tooLarge > 0) continue;
        steps[i].sheets = std::min(steps[i].sheets, sheets);
        if (cost >= 0) steps[i].cost = std::min(steps[i].cost, cost);
    }
    steps = joinedSteps(steps);
}

} // namespace slab
