// What the scale ruler shows: fit as bands over the scale, and where the sheet count steps.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/stages.h"
#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

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

/// What a fresh layout needs at one scale; nothing while the body cannot be worked out there.
std::optional<ScaleSurvey::Step> sheetsAt(Evaluator& evaluator, Project& project, double scale,
                                          const Job& job) {
    // Laid out afresh: a layout carried over from the scale before would carry its sheet count along.
    const Evaluation e = at(evaluator, project, scale, Effort::fitOnly, job);
    if (!e.panels || !e.stock) return std::nullopt;
    const NestResult laid = nest(nestProblemFor(*e.panels, *e.stock), {}, Job{job.stop, {}});
    return ScaleSurvey::Step{scale, static_cast<int>(laid.layouts.size()),
                             largerThanSheet(e.seams.get(), &laid)};
}

/// The scale between two at which the first panel outgrows its sheet, to `tolerance`; its step.
ScaleSurvey::Step outgrown(Evaluator& evaluator, Project& project, double held, ScaleSurvey::Step step,
                           double tolerance, const Job& job) {
    while (step.scale - held > tolerance && !job.stopped()) {
        const double middle = (held + step.scale) / 2;
        const auto there = sheetsAt(evaluator, project, middle, job);
        if (there && there->tooLarge > 0)
            step = *there;
        else
            held = middle;
    }
    return step;
}

/// Neighbours that say the same are one step.
std::vector<ScaleSurvey::Step> joinedSteps(const std::vector<ScaleSurvey::Step>& all) {
    std::vector<ScaleSurvey::Step> steps;
    for (const ScaleSurvey::Step& s : all)
        if (steps.empty() || steps.back().tooLarge != s.tooLarge ||
            (s.tooLarge == 0 && steps.back().sheets != s.sheets))
            steps.push_back(s);
    return steps;
}

/// Fewer sheets can never be needed at a smaller scale: a layout of the larger panels serves the smaller
/// ones, as long as all of them lie on it.
std::vector<ScaleSurvey::Step> sheetSteps(Evaluator& evaluator, Project& project, double from, double to,
                                          const Job& job) {
    std::vector<ScaleSurvey::Step> counts;
    int least = 1 << 20;
    for (int i = sheetSamples; i >= 0 && !job.stopped(); --i) {
        auto step = sheetsAt(evaluator, project, from + (to - from) * i / sheetSamples, job);
        if (!step) continue;
        if (step->tooLarge == 0) {
            if (!counts.empty() && counts.back().tooLarge > 0)
                counts.back() =
                    outgrown(evaluator, project, step->scale, counts.back(), (to - from) / 1000, job);
            step->sheets = least = std::min(least, step->sheets);
        }
        counts.push_back(*step);
    }
    std::reverse(counts.begin(), counts.end());
    return joinedSteps(counts);
}

/// Donor and rider first; what moves where that is worse.
Probe worseOf(const Probe& fit, const WorstSwept& moving) {
    if (moving.moving.empty() || fit.clearance < 0) return fit;
    const std::string pair = moving.moving + " – " + moving.other;
    if (moving.meets) return {-1, -1, pair};
    return moving.margin < fit.margin ? Probe{moving.margin, fit.clearance, pair} : fit;
}

} // namespace

void learnLayout(ScaleSurvey& survey, double scale, int sheets) {
    std::vector<ScaleSurvey::Step>& steps = survey.sheetSteps;
    const auto after =
        std::find_if(steps.begin(), steps.end(), [&](const auto& s) { return s.scale > scale; });
    if (after == steps.begin() || sheets <= 0) return;
    const auto here = static_cast<std::size_t>(after - steps.begin()) - 1;
    if (steps[here].tooLarge > 0 || steps[here].sheets <= sheets) return;
    const double end = after == steps.end() ? survey.to : after->scale;
    const double cell = (survey.to - survey.from) / sheetSamples;
    const double next = survey.from + cell * (std::floor((scale - survey.from) / cell + 1e-9) + 1);
    if (next < end - cell / 2) {
        ScaleSurvey::Step rest = steps[here];
        rest.scale = next;
        steps.insert(after, rest);
    }
    for (std::size_t i = 0; i <= here; ++i)
        if (steps[i].tooLarge == 0) steps[i].sheets = std::min(steps[i].sheets, sheets);
    steps = joinedSteps(steps);
}

int largerThanSheet(const std::vector<SeamCut>* seams, const NestResult* sheets) {
    std::set<std::string> split;
    std::set<int> unplaced;
    if (seams)
        for (const SeamCut& seam : *seams)
            if (seam.found) split.insert(seam.panel);
    if (sheets)
        for (const auto& [part, copy] : sheets->unplaced) unplaced.insert(part);
    return static_cast<int>(split.size() + unplaced.size());
}

ScaleSurvey surveyScale(const Project& project, double from, double to, const Job& job) {
    ScaleSurvey survey;
    survey.from = from;
    survey.to = to;
    Evaluator evaluator;
    Project moving = project;
    const auto probe = [&](double scale) -> Probe {
        const Evaluation e = at(evaluator, moving, scale, Effort::survey, job);
        if (!e.fit) return {1e9, 1e9, {}};
        return worseOf(e.afloat ? probeOf(*e.fit, *e.afloat) : probeOf(*e.fit),
                       e.worst.value_or(WorstSwept{}));
    };
    const Evaluation first = at(evaluator, moving, from, Effort::fitOnly, job);
    const bool nobody = first.donor && first.donor->solids.empty();
    if (!nobody) survey.bands = fitBands(probe, from, to, fitSamples, edgeTolerance, job);
    job.report(0.6);
    // The first band that fits; a larger body can hit again, where its walls move past the donor's ends. One
    // that begins with the range may go on below it.
    const auto fits = std::find_if(survey.bands.begin(), survey.bands.end(),
                                   [](const FitBand& band) { return band.state == FitState::fits; });
    if (fits != survey.bands.end() && fits->from > from) survey.leastFitting = fits->from;
    survey.sheetSteps = sheetSteps(evaluator, moving, from, to, job);
    job.report(1);
    return survey;
}

} // namespace slab
