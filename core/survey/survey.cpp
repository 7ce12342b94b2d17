#include "core/survey/survey.h"
#include "core/evaluate/stages.h"
#include "core/survey/edges.h"
#include "core/survey/pick.h"
#include "core/survey/squeeze.h"
#include "core/survey/steps.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// @param own  the document's scale, which is looked at too
std::vector<ScaleToLookAt> grid(double from, double to, double own) {
    std::vector<ScaleToLookAt> out;
    for (int i = 0; i <= surveyCells; ++i) {
        const double at = i == surveyCells ? to : from + (to - from) * i / surveyCells;
        if (!out.empty() && own > out.back().scale && own < at) out.push_back({own, false});
        // Wind and what is carried go evenly with scale, so that three points tell them.
        const bool slow = i == 0 || i == surveyCells / 2 - 1 || i == surveyCells; // shared by both lanes
        if (out.empty() || at > out.back().scale) out.push_back({at, true, slow});
    }
    return out;
}

/// One band for each run of samples of one state.
std::vector<FitBand> bandsOf(const std::vector<SurveySample>& samples) {
    std::vector<FitBand> bands;
    for (const SurveySample& s : samples) {
        const FitState state = s.state();
        if (bands.empty() || bands.back().state != state) {
            if (!bands.empty()) bands.back().to = s.scale;
            bands.push_back({s.scale, s.scale, state, {}});
        }
        FitBand& band = bands.back();
        band.to = s.scale;
        const ToldMargin* worst = s.worst();
        if (!worst) continue;
        const std::string pair = bandBinding(*worst);
        if (band.bindings.empty() || band.bindings.back().pair != pair)
            band.bindings.push_back({s.scale, pair});
    }
    return bands;
}

/// "below 0.381 the joystick hand meets hull/port", of the sample beyond an end; the scale is the roundest
/// between the two.
std::string endWords(const SurveySample& beyond, double end) {
    const ToldMargin* worst = beyond.worst();
    if (!worst) return {};
    const bool below = beyond.scale < end;
    const auto [low, high] = std::minmax(beyond.scale, end);
    return (below ? "below " : "above ") + printExact(roundestIn(low, high, end), Unit::none) + " " +
           failWords(worst->of, worst->margin);
}

std::vector<FeasibleBand> feasibleOf(const std::vector<SurveySample>& samples) {
    std::vector<FeasibleBand> out;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (samples[i].state() != FitState::fits) continue;
        const bool goes = i > 0 && samples[i - 1].state() == FitState::fits;
        if (!goes)
            out.push_back({samples[i].scale,
                           samples[i].scale,
                           i > 0 ? endWords(samples[i - 1], samples[i].scale) : std::string(),
                           {}});
        out.back().to = samples[i].scale;
        if (i + 1 < samples.size() && samples[i + 1].state() != FitState::fits)
            out.back().above = endWords(samples[i + 1], samples[i].scale);
    }
    return out;
}

/// Constraints in the order that they are told in, each with its points.
std::vector<Constraint> curvesOf(const std::vector<SurveySample>& samples) {
    std::vector<Constraint> out;
    for (const SurveySample& s : samples)
        for (const ToldMargin& t : s.told) {
            auto at =
                std::find_if(out.begin(), out.end(), [&](const Constraint& c) { return c.key == t.of.key; });
            if (at == out.end()) at = out.insert(out.end(), t.of);
            at->points.push_back(t.margin);
        }
    return out;
}

bool anyMust(const std::vector<Constraint>& constraints) {
    return std::any_of(constraints.begin(), constraints.end(), [](const Constraint& c) { return c.must; });
}

/// Is all that fails at a scale a question of the shell's size?
bool sizeAloneFails(const SurveySample& s) {
    return std::all_of(s.told.begin(), s.told.end(), [](const ToldMargin& t) {
        return !t.of.must || holds(t.margin) || t.of.key.starts_with("fit:") ||
               t.of.key.starts_with("route:") || t.of.key == "within";
    });
}

/// Scales at which one direction alone may mend it: where least is missing, the least at which all fits
/// inside and the greatest that passes the route.
std::vector<double> scalesToStretch(const std::vector<SurveySample>& samples, double nearest) {
    const auto all = [](const SurveySample& s, bool route) {
        return std::all_of(s.told.begin(), s.told.end(), [&](const ToldMargin& t) {
            return !t.of.must || t.of.key.starts_with("route:") != route || holds(t.margin);
        });
    };
    std::vector<double> out;
    const auto add = [&](const SurveySample& s) {
        if (sizeAloneFails(s) && std::find(out.begin(), out.end(), s.scale) == out.end())
            out.push_back(s.scale);
    };
    for (const SurveySample& s : samples)
        if (s.scale == nearest) add(s);
    const auto inside =
        std::find_if(samples.begin(), samples.end(), [&](const auto& s) { return all(s, false); });
    if (inside != samples.end()) add(*inside);
    const auto passes =
        std::find_if(samples.rbegin(), samples.rend(), [&](const auto& s) { return all(s, true); });
    if (passes != samples.rend()) add(*passes);
    return out;
}

/// The least change of each direction over all scales that are tried, the least of all first.
void adviseStretch(const Project& project, const std::vector<SurveySample>& samples, const Job& job,
                   ScalePick& missed) {
    const std::vector<double> scales = scalesToStretch(samples, missed.nearest);
    std::vector<Squeeze> all;
    for (const double scale : scales) {
        auto found = squeezes(project, scale, job);
        if (!found) {
            missed.reasons.push_back(found.error().message);
            return;
        }
        all.insert(all.end(), found->begin(), found->end());
    }
    std::stable_sort(all.begin(), all.end(), [](const Squeeze& a, const Squeeze& b) {
        if (a.but.empty() != b.but.empty()) return a.but.empty();
        return std::abs(std::log(a.factor)) < std::abs(std::log(b.factor));
    });
    for (Squeeze& one : all)
        if (std::none_of(missed.stretches.begin(), missed.stretches.end(),
                         [&](const Squeeze& s) { return s.axis == one.axis; }))
            missed.stretches.push_back(std::move(one));
    if (scales.empty()) return;
    for (std::string& line : squeezeWords(missed.stretches, scales, unitStyleOf(project.units)))
        missed.reasons.push_back(std::move(line));
}

/// What only some scales are asked for.
bool isSlow(const std::string& key) {
    return key == "wind" || key.starts_with("passage:");
}
Constraint bare(Constraint c) {
    c.points.clear();
    return c;
}

/// Tried before it is advised; a scale that fails after all is no pick.
ScalePick triedPick(const Project& project, const ScaleSurvey& survey, SurveySampler& sampler,
                    const std::vector<SurveySample>& samples, const Job& job) {
    const UnitStyle units = unitStyleOf(project.units);
    const auto scale = pickScale(survey);
    if (!scale) {
        ScalePick missed = missedPick(survey, samples, units);
        adviseStretch(project, samples, job, missed);
        return missed;
    }
    SurveySample there = sampler.at({{*scale, true, false, true}}, job).front();
    for (const Constraint& c : survey.constraints) // what takes long is read off its curve
        if (const auto margin = c.margin(*scale); margin && !there.find(c.key) && isSlow(c.key))
            there.told.push_back({bare(c), {*scale, *margin, *margin, c.nearest(*scale)->binding}});
    if (!there.sound || there.state() != FitState::fits) return {};
    ScalePick pick;
    pick.scale = scale;
    pick.reasons = pickReasons(survey, there, units);
    return pick;
}

} // namespace

ScaleSurvey surveyScale(const Project& project, double from, double to, const Job& job) {
    ScaleSurvey survey;
    survey.from = from;
    survey.to = to;
    survey.currency = project.stock.currency;
    if (!(from > 0) || !(to >= from)) return survey;
    SurveySampler sampler(project);
    std::vector<SurveySample> samples = sampler.at(grid(from, to, readScale(project.scale).value_or(0)), job);
    std::erase_if(samples, [](const SurveySample& s) { return !s.sound; });
    job.report(0.6);
    EdgeRules rules;
    rules.sheetTolerance = (to - from) / 1000;
    refineEdges(samples, sampler, rules, job);
    job.report(0.9);
    survey.constraints = curvesOf(samples);
    if (anyMust(survey.constraints)) {
        survey.bands = bandsOf(samples);
        survey.feasible = feasibleOf(samples);
    }
    // The first band that fits; a larger body can hit again, where its walls move past the donor's ends. One
    // that begins with the range may go on below it.
    if (!survey.feasible.empty() && survey.feasible.front().from > from)
        survey.leastFitting = survey.feasible.front().from;
    survey.sheetSteps = stepsOf(samples);
    survey.stock = stockMatches(project, from, to);
    if (!survey.bands.empty() && !job.stopped())
        survey.pick = triedPick(project, survey, sampler, samples, job);
    survey.evaluations = sampler.evaluations();
    job.report(1);
    return survey;
}

} // namespace slab
