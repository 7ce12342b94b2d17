// What the scale ruler shows: fit as bands over the scale, and where the sheet count steps.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/stages.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr int fitSamples = 48;
constexpr int sheetSamples = 24;
constexpr double edgeTolerance = 1e-4;

/// The pipeline at one scale, with the document otherwise as it is.
Evaluation at(Evaluator& evaluator, Project& project, double scale, Effort effort, const Job& job) {
    project.scale = printExact(scale, Unit::none);
    return evaluator.evaluate(project, effort, 0, Job{job.stop, {}});
}

/// Fewer sheets can never be needed at a smaller scale: a layout of the larger panels serves the smaller
/// ones.
std::vector<ScaleSurvey::Step> sheetSteps(Evaluator& evaluator, Project& project, double from, double to,
                                          const Job& job) {
    std::vector<ScaleSurvey::Step> counts;
    int least = 1 << 20;
    for (int i = sheetSamples; i >= 0 && !job.stopped(); --i) {
        const double scale = from + (to - from) * i / sheetSamples;
        // Laid out afresh: a layout carried over from the scale before would carry its sheet count along.
        const Evaluation e = at(evaluator, project, scale, Effort::fitOnly, job);
        if (!e.panels || !e.stock) continue;
        const NestResult laid = nest(nestProblemFor(*e.panels, *e.stock), {}, Job{job.stop, {}});
        if (!laid.unplaced.empty()) continue;
        least = std::min(least, static_cast<int>(laid.layouts.size()));
        counts.push_back({scale, least});
    }
    std::reverse(counts.begin(), counts.end());
    std::vector<ScaleSurvey::Step> steps;
    for (const ScaleSurvey::Step& s : counts)
        if (steps.empty() || steps.back().sheets != s.sheets) steps.push_back(s);
    return steps;
}

} // namespace

ScaleSurvey surveyScale(const Project& project, double from, double to, const Job& job) {
    ScaleSurvey survey;
    survey.from = from;
    survey.to = to;
    Evaluator evaluator;
    Project moving = project;
    const auto probe = [&](double scale) -> Probe {
        const Evaluation e = at(evaluator, moving, scale, Effort::fitOnly, job);
        return e.fit ? probeOf(*e.fit) : Probe{1e9, 1e9, {}};
    };
    survey.bands = fitBands(probe, from, to, fitSamples, edgeTolerance, job);
    job.report(0.6);
    // The first band that fits; a larger body can hit again, where its walls move past the donor's ends.
    for (const FitBand& band : survey.bands)
        if (band.state == FitState::fits) {
            survey.leastFitting = band.from;
            break;
        }
    survey.sheetSteps = sheetSteps(evaluator, moving, from, to, job);
    job.report(1);
    return survey;
}

} // namespace slab
