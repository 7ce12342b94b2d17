#include "core/evaluate/fit_stage.h"
#include "core/donor/placing.h"
#include "core/evaluate/owners.h"
#include "core/fit/float_moving.h"
#include "core/fit/service.h"
#include "core/fit/swept.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/shown.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

using Way = FloatTravel::Way;

std::vector<std::string> linkageNames(const Project& project) {
    std::vector<std::string> names;
    for (const Linkage& l : project.mechanisms.linkages)
        if (!l.off) names.push_back(l.name);
    return names;
}

/// Travels that the document gives; where it says nothing of the pitch, slots limit that.
std::vector<FloatTravel> travelsOf(const Project& project, const FloatRange& range) {
    std::vector<FloatTravel> travels;
    const auto add = [&](const Linkage& l, Way way, double now) {
        if (now > 1e-6) travels.push_back({l.name, way, now});
    };
    for (const Linkage& l : project.mechanisms.linkages) {
        if (l.off) continue;
        const bool pitches = l.joint != "pin_slot" || !l.pitch_up.empty() || !l.pitch_down.empty();
        if (l.joint == "pin_slot") {
            add(l, Way::up, range.highest);
            add(l, Way::down, -range.lowest);
        }
        if (!pitches) continue;
        add(l, Way::noseUp, range.noseUp);
        add(l, Way::noseDown, -range.noseDown);
    }
    return travels;
}

/// Poses of the document with one travel changed: what the builder would get who does as is advised.
std::vector<FloatPose> posesWith(Project project, const Evaluation& e, const PlateRules& rules,
                                 const FloatTravel& travel, double least) {
    for (Linkage& l : project.mechanisms.linkages) {
        if (l.name != travel.linkage) continue;
        const std::string length = printExact(least, Unit::mm);
        const std::string angle = printExact(least * 180 / std::numbers::pi, Unit::none) + " deg";
        switch (travel.way) {
        case Way::up:
            l.up = length;
            break;
        case Way::down:
            l.down = length;
            break;
        case Way::noseUp:
            l.pitch_up = angle;
            break;
        case Way::noseDown:
            l.pitch_down = angle;
            break;
        }
    }
    MechanismSet set;
    addLinkages({project, *e.scope, *e.stock, *e.body, rules, e.units}, set);
    return std::move(set.floating.poses);
}

} // namespace

/// The very same set where there are no round forms.
std::shared_ptr<const PlateSet> FitStage::fitted(Fitted& memory, const Evaluation& e) {
    if (e.body->rounds.empty()) return e.plates;
    const auto rounds = shownRounds(*e.mechanisms, e.body->rounds);
    return memory.get({e.plates, rounds}, [&] { return withRounds(*e.plates, rounds); });
}

std::shared_ptr<const std::vector<PosedSolid>> FitStage::posed(const PosedKey& donor) {
    return m_posed.get(donor, [&] { return posedSolids(donor->poses); });
}

std::shared_ptr<const DonorSet> FitStage::placed(const Project& project, const Evaluation& e) {
    const auto& fixed =
        m_donor.get({project.donor, project.rider, project.passengers, project.clearance, *e.scope},
                    [&] { return resolveDonor(project, *e.scope); });
    if (!project.donor.best_place || fixed->solids.empty()) return fixed;
    const auto plates = fitted(m_bare, e);
    return m_placed.get({plates, fixed}, [&] {
        DonorSet moved = *fixed;
        std::vector<FitSolid> solids = fixed->solids;
        for (const PosedSolid& p : *m_homePosed.get(fixed, [&] { return posedSolids(fixed->poses); }))
            solids.push_back(p.solid);
        const Vec3 by(bestPlace(solids, *plates), 0, 0);
        shift(moved, by);
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
    const auto poses = posed(e.donor);
    const PoseField field{e.donor->solids, *poses, *plates, words};
    const auto& quick =
        m_live.get(key, [&] { return withPoses(liveFit(e.donor->solids, *plates, words), field); });
    if (effort < Effort::verdict || job.stopped()) return quick;
    const auto exact = m_verdict.get(key, [&] {
        return confirmedPoses(confirmedFit(*quick, e.donor->solids, *plates, m_known, job, words), *quick,
                              field, m_knownPosed, job);
    });
    if (job.stopped()) m_verdict.forget();
    return exact;
}

std::shared_ptr<const FloatFit> FitStage::afloat(const Project& project, const Evaluation& e) {
    if (e.mechanisms->floating.poses.empty()) return nullptr;
    UnitStyle words = e.units;
    words.decimals = 1;
    const std::vector<std::string> linkages = linkageNames(project);
    const auto plates = fitted(m_shown, e);
    return m_afloat.get({e.fit, plates, e.donor, e.mechanisms, words}, [&] {
        return floatFit(*e.fit, e.donor->solids, *plates, e.mechanisms->floating.poses, linkages, words,
                        *posed(e.donor));
    });
}

std::shared_ptr<const FitResult> FitStage::whole(const Evaluation& e,
                                                 const std::shared_ptr<const PlateSet>& cut, Effort effort,
                                                 const Job& job) {
    const bool posing = effort >= Effort::verdict && !e.donor->poses.empty() &&
                        !(e.mechanisms->motions.empty() && e.mechanisms->bought.empty());
    if (e.mechanisms->checks.empty() && !posing) return e.fit;
    const WholeKey key{e.fit, e.mechanisms, posing};
    const auto all = m_whole.get(key, [&] {
        const PlateSet plates = withRounds(*cut, e.body->rounds);
        FitResult fit =
            e.mechanisms->checks.empty() ? *e.fit : withSwept(*e.fit, *e.mechanisms, e.donor->solids, plates);
        return posing ? posedMoving(std::move(fit), e, plates, job) : fit;
    });
    if (job.stopped()) m_whole.forget();
    return all;
}

std::shared_ptr<const FitResult> FitStage::serviced(const Evaluation& e, Effort effort) {
    if (effort < Effort::verdict || e.donor->chassis.service.empty()) return e.fit;
    const auto plates = fitted(m_shown, e);
    return m_serviced.get({e.fit, plates, e.plates, e.donor}, [&] {
        UnitStyle style = e.units;
        style.decimals = 0;
        FitResult fit = *e.fit;
        fit.service = serviceWays(*e.donor, *plates, *e.plates, style);
        for (Finding& f : serviceFindings(fit.service, *plates, style)) fit.findings.push_back(std::move(f));
        return fit;
    });
}

std::shared_ptr<const FitResult>
FitStage::moving(const Evaluation& e, const std::shared_ptr<const PlateSet>& cut, const Job& job) {
    if (e.mechanisms->motions.empty() && e.mechanisms->bought.empty()) return e.fit;
    const PlateSet plates = withRounds(*cut, e.body->rounds);
    return std::make_shared<const FitResult>(
        posedMoving(withMoving(*e.fit, *e.mechanisms, e.donor->solids, plates), e, plates, job));
}

FitResult FitStage::posedMoving(FitResult fit, const Evaluation& e, const PlateSet& cut, const Job& job) {
    UnitStyle style = e.units;
    style.decimals = 1;
    const FitWords words(style);
    const auto poses = posed(e.donor);
    const auto plates = fitted(m_shown, e);
    return withPosedMoving(std::move(fit), {e.donor->solids, *poses, *plates, words}, *e.mechanisms, cut,
                           job);
}

std::shared_ptr<const FloatFit> FitStage::allAfloat(const Project& project, const Evaluation& e,
                                                    const PlateSet& cut, Effort effort, const Job& job) {
    if (!e.afloat) return nullptr;
    const AllAfloatKey key{e.afloat, e.fit, e.mechanisms, project.mechanisms.linkages};
    if (m_allAfloat.holds(key)) return m_allAfloat.value();
    if ((effort < Effort::verdict && effort > Effort::survey) || job.stopped()) return e.afloat;
    UnitStyle words = e.units;
    words.decimals = 1;
    const std::vector<std::string> linkages = linkageNames(project);
    const auto plates = fitted(m_shown, e);
    const PlateRules rules;
    const auto all = m_allAfloat.get(key, [&] {
        const FloatField field{*e.fit,
                               e.donor->solids,
                               *plates,
                               cut,
                               *e.mechanisms,
                               linkages,
                               words,
                               travelsOf(project, e.mechanisms->floating),
                               [&](const FloatTravel& travel, double least) {
                                   return posesWith(project, e, rules, travel, least);
                               }};
        return floatAll(*e.afloat, field, job);
    });
    if (job.stopped()) m_allAfloat.forget();
    return all;
}

} // namespace slab
