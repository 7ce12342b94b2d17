#include "core/survey/sampler.h"
#include "core/takeoff/takeoff.h"
#include <algorithm>
#include <exception>
#include <thread>

namespace slab {

FitState SurveySample::state() const {
    FitState state = FitState::fits;
    for (const ToldMargin& t : told) {
        if (!t.of.must) continue;
        if (meets(t)) return FitState::hits;
        if (!holds(t.margin)) state = FitState::tight;
    }
    return state;
}

const ToldMargin* SurveySample::worst() const {
    const ToldMargin* worst = nullptr;
    const auto worse = [](const ToldMargin& a, const ToldMargin& b) {
        if (meets(a) != meets(b)) return meets(a);
        const bool lengths = a.of.unit == Constraint::Unit::length && b.of.unit == Constraint::Unit::length;
        return lengths && a.margin.margin < b.margin.margin; // of other units the first told
    };
    for (const ToldMargin& t : told)
        if (t.of.must && !holds(t.margin) && (!worst || worse(t, *worst))) worst = &t;
    return worst;
}

const ToldMargin* SurveySample::find(const std::string& key) const {
    const auto at =
        std::find_if(told.begin(), told.end(), [&](const ToldMargin& t) { return t.of.key == key; });
    return at == told.end() ? nullptr : &*at;
}

std::string bandBinding(const ToldMargin& told) {
    const std::string& binding = told.margin.binding;
    if (told.of.key.starts_with("fit:")) return told.of.key.substr(4) + " – " + binding;
    if (told.of.key == "within") return binding + " outside the body";
    if (told.of.touches) return binding;
    return binding.empty() ? told.of.words : told.of.words + ": " + binding;
}

namespace {

/// Is a finding of what a curve tells, at this scale or beyond?
bool hasCurve(const std::string& code) {
    for (const char* told : {"fit-", "route-", "load-", "tips-", "turn-tips", "wind-tips", "sight-",
                             "exit-small", "passage-too-small", "sheet-", "panel-"})
        if (code.starts_with(told)) return true;
    return false;
}

/// The whole and its modules in every passage; null without passages.
std::shared_ptr<const ModuleSet> carried(const Project& project, const Evaluation& e) {
    std::vector<Finding> told; // in the punch list, when the document itself is evaluated
    const std::vector<PassageSize> passages = resolvePassages(project, *e.scope, told);
    if (passages.empty()) return nullptr;
    return std::make_shared<const ModuleSet>(measureModules(
        {*e.plates, *e.stock, boughtParts(*e.mechanisms, *e.body)}, project.modules, passages, e.units));
}

} // namespace

SurveySampler::SurveySampler(const Project& project) {
    for (Lane& lane : m_lanes) lane.project = project;
}

SurveySample SurveySampler::look(Lane& lane, const ScaleToLookAt& asked, const Job& job) {
    SurveySample sample;
    sample.scale = asked.scale;
    if (job.stopped()) return sample;
    lane.project.scale = printExact(asked.scale, Unit::none);
    const Job quiet{job.stop, {}};
    Evaluation e =
        lane.evaluator.evaluate(lane.project, asked.slow ? Effort::windy : Effort::survey, 0, quiet);
    if (job.stopped() || !e.panels || !e.stock) return sample;
    if (asked.slow) e.modules = carried(lane.project, e);
    sample.sound = true;
    sample.told = marginsOf(e);
    for (ToldMargin& t : sample.told) t.margin.scale = asked.scale;
    if (asked.stops)
        for (const Finding& f : e.findings)
            if (f.severity == Severity::stop && !hasCurve(f.code)) sample.stops.push_back(f.message);
    if (!asked.layout) return sample;
    // Laid out afresh: a layout carried over from the scale before would carry its sheet count along.
    const NestResult laid = nest(nestProblemFor(*e.panels, *e.stock), {}, quiet);
    sample.step = ScaleSurvey::Step{asked.scale, static_cast<int>(laid.layouts.size()),
                                    largerThanSheet(e.seams.get(), &laid), laid.cost};
    return sample;
}

std::vector<SurveySample> SurveySampler::at(const std::vector<ScaleToLookAt>& asked, const Job& job) {
    std::vector<SurveySample> out(asked.size());
    const auto run = [&](std::size_t lane) {
        for (std::size_t i = lane; i < asked.size(); i += m_lanes.size())
            out[i] = look(m_lanes[lane], asked[i], job);
    };
    std::exception_ptr failed;
    {
        // A thread of its own, which goes on with this one's priority: the workers of shareOut() are left to
        // what the hand waits for.
        std::jthread beside;
        if (asked.size() > 1)
            beside = std::jthread([&] {
                try {
                    run(1);
                } catch (...) {
                    failed = std::current_exception();
                }
            });
        run(0);
    }
    if (failed) std::rethrow_exception(failed);
    m_evaluations += static_cast<int>(asked.size());
    return out;
}

} // namespace slab
