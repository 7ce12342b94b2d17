#include "core/evaluate/mechanisms_stage.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/sweep_near.h"
#include "core/plates/lap_strips.h"
#include <algorithm>

namespace slab {

bool MechanismStage::MadeKey::operator==(const MadeKey& other) const {
    return mechanisms == other.mechanisms && fallback == other.fallback && *scope == *other.scope &&
           *stock == *other.stock && body == other.body && rules == other.rules;
}

std::shared_ptr<const MechanismSet> MechanismStage::made(const Project& project, const Evaluation& e,
                                                         const PlateRules& rules) {
    UnitStyle words = e.units;
    words.decimals = 1;
    const MadeKey key{project.mechanisms, project.materials.fallback, e.scope, e.stock, e.body, rules};
    return m_made.get(key, [&] {
        return resolveMechanisms({project, *e.scope, *e.stock, *e.body, rules, words});
    });
}

namespace {

/// Plates and round forms with every move at 0, and the plates' joints.
PlateSet sweptPlates(const PlateSet& plates, const Body& body) {
    PlateSet all = withRounds(plates, body.rounds, 0);
    all.joints = plates.joints;
    return all;
}

PlateSet withParts(PlateSet set, const PlateList& parts) {
    std::string form;
    int last = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (parts[i].form != form) { // each mechanism counts its own marks from 1
            form = parts[i].form;
            last = slab::plates::highestMark(set);
        }
        slab::plates::addBehindMark(set, parts, i, last);
    }
    return set;
}

} // namespace

std::shared_ptr<const PlateSet> MechanismStage::joined(const std::shared_ptr<const PlateSet>& shell,
                                                       const std::shared_ptr<const MechanismSet>& made) {
    if (made->parts.empty()) return shell;
    return m_joined.get({shell, made}, [&] { return withParts(*shell, made->parts); });
}

std::shared_ptr<const PlateSet> MechanismStage::shown(const std::shared_ptr<const PlateSet>& plates,
                                                      const std::shared_ptr<const MechanismSet>& made) {
    const bool moved = std::any_of(made->carried.begin(), made->carried.end(), [&](const CarriedPlates& c) {
        return c.motion >= 0 && shownPose(made->motions[static_cast<std::size_t>(c.motion)]) != Pose{};
    });
    if (!moved) return plates;
    return m_shown.get({plates, made}, [&] { return posed(*plates, *made); });
}

std::shared_ptr<const MechanismSet> MechanismStage::swept(const std::shared_ptr<const MechanismSet>& made,
                                                          const std::shared_ptr<const PlateSet>& plates,
                                                          const Evaluation& e, Effort effort,
                                                          const Job& job) {
    if (made->motions.empty() && made->solids.empty() && made->parts.empty()) return made;
    const SweptKey key{{plates, made}, e.donor};
    if (m_swept.holds(key)) return m_swept.value();
    if (effort < Effort::verdict) return made;
    UnitStyle words = e.units;
    words.decimals = 1;
    const auto set = m_swept.get(key, [&] {
        MechanismSet done =
            sweepMechanisms(*made, sweptPlates(*plates, *e.body), e.donor->solids, words, job);
        if (e.scale != 1) // what is typed may be at full size
            for (Finding& f : done.findings)
                if (f.code.starts_with("sweep-")) f.remedy += " Lengths are as built.";
        return done;
    });
    if (job.stopped()) m_swept.forget();
    return set;
}

WorstSwept MechanismStage::worst(const Evaluation& e, const PlateSet& plates, const Job& job) {
    constexpr double ample = 30; // mm: as far as a curve of the scale survey is worth its time
    return nearestSwept(*e.mechanisms, sweptPlates(plates, *e.body), ample, job);
}

} // namespace slab
