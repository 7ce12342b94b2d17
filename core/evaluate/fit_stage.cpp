#include "core/evaluate/fit_stage.h"
#include "core/evaluate/owners.h"
#include "core/fit/rounds.h"
#include "core/fit/swept.h"
#include <cmath>

namespace slab {

/// The very same set where there are no round forms.
std::shared_ptr<const PlateSet> FitStage::fitted(Fitted& memory, const Evaluation& e) {
    if (e.body->rounds.empty()) return e.plates;
    return memory.get({e.plates, e.body->rounds}, [&] { return withRounds(*e.plates, *e.body); });
}

std::shared_ptr<const DonorSet> FitStage::placed(const Project& project, const Evaluation& e) {
    const auto& fixed = m_donor.get({project.donor, project.rider, project.clearance, *e.scope},
                                    [&] { return resolveDonor(project, *e.scope); });
    if (!project.donor.best_place || fixed->solids.empty()) return fixed;
    const auto plates = fitted(m_bare, e);
    return m_placed.get({plates, fixed}, [&] {
        DonorSet moved = *fixed;
        const Vec3 shift(bestPlace(fixed->solids, *plates), 0, 0);
        for (FitSolid& s : moved.solids) s.shape = translated(s.shape, shift);
        moved.place += shift;
        moved.findings.push_back({Severity::note,
                                  "best-place",
                                  "The donor stands at its best place, " +
                                      printLength(std::abs(moved.place.x()), e.units) +
                                      (moved.place.x() < 0 ? " behind" : " ahead of") + " the origin.",
                                  {"document:/donor/place"},
                                  "Set place to \"fixed\" and type x to hold it there.",
                                  {}});
        return moved;
    });
}

std::shared_ptr<const FitResult> FitStage::atRest(const Project& project, const Evaluation& e, Effort effort,
                                                  const Job& job) {
    UnitStyle style = e.units;
    style.decimals = 1;
    const FitWords words(style, partOwners(project));
    const auto plates = fitted(m_shown, e);
    const FitKey key{plates, e.donor, words};
    if (m_verdict.holds(key)) return m_verdict.value();
    const auto& quick = m_live.get(key, [&] { return liveFit(e.donor->solids, *plates, words); });
    if (effort < Effort::verdict || job.stopped()) return quick;
    const auto exact =
        m_verdict.get(key, [&] { return confirmedFit(*quick, e.donor->solids, *plates, job, words); });
    if (job.stopped()) m_verdict.forget();
    return exact;
}

std::shared_ptr<const FloatFit> FitStage::afloat(const Project& project, const Evaluation& e) {
    if (e.mechanisms->floating.poses.empty()) return nullptr;
    UnitStyle words = e.units;
    words.decimals = 1;
    std::vector<std::string> linkages;
    for (const Linkage& l : project.mechanisms.linkages)
        if (!l.off) linkages.push_back(l.name);
    const auto plates = fitted(m_shown, e);
    return m_afloat.get({e.fit, plates, e.donor, e.mechanisms, words}, [&] {
        return floatFit(*e.fit, e.donor->solids, *plates, e.mechanisms->floating.poses, linkages, words);
    });
}

std::shared_ptr<const FitResult> FitStage::whole(const Evaluation& e,
                                                 const std::shared_ptr<const PlateSet>& cut) {
    if (e.mechanisms->checks.empty()) return e.fit;
    return m_whole.get({e.fit, e.mechanisms},
                       [&] { return withSwept(*e.fit, *e.mechanisms, e.donor->solids, *cut); });
}

} // namespace slab
