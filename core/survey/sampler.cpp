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

SurveySampler::SurveySampler(const Project& project) {
    for (Lane& lane : m_lanes) lane.project = project;
}

SurveySample SurveySampler::look(Lane& lane, const ScaleToLookAt& asked, const Job& job) {
    SurveySample sample;
    sample.scale = asked.scale;
    if (job.stopped()) return sample;
    lane.project.scale = printExact(asked.scale, Unit::none);
    const Job quiet{job.stop, {}};
    const Evaluation e = lane.evaluator.evaluate(lane.project, Effort::survey, 0, quiet);
    if (job.stopped() || !e.panels || !e.stock) return sample;
    sample.sound = true;
    sample.told = marginsOf(e);
    for (ToldMargin& t : sample.told) t.margin.scale = asked.scale;
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
