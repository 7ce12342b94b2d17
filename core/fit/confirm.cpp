#include "core/fit/pieces.h"
#include "core/mechanisms/rounds.h"
#include "core/geometry/occt.h"
#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <thread>

namespace slab {

namespace {

constexpr double agreement = 1e-6; ///< mm; a live figure this near to OpenCASCADE's is kept

/// What OpenCASCADE says about one pair.
struct Verdict {
    bool judged = false;
    double distance = 0, volume = 0;
    Vec3 onSolid = Vec3::Zero(), onPlate = Vec3::Zero();
    std::string why; ///< when not judged
};

Verdict judge(const FitPair& pair, const occt::Built& solid, const occt::Built& plate, const Job& job) {
    Verdict v;
    const auto near = occt::nearest(plate, solid);
    if (!near) {
        v.why = near.error().message;
        return v;
    }
    v.distance = near->distance;
    v.onSolid = near->onB;
    v.onPlate = near->onA;
    // Apart and seen apart live: there is no common volume to compute.
    if (pair.state == FitState::hits || near->meets) {
        const auto common = occt::commonVolume(plate, solid, job);
        if (!common) {
            v.why = common.error().message;
            return v;
        }
        v.volume = *common;
    }
    v.judged = true;
    return v;
}

/// A round form as it is, not in facets.
occt::Built builtOf(const Plate& plate) {
    const bool cylinder = plate.cells.size() == 1 && plate.cells[0].kind == ConvexSolid::Kind::cylinder;
    return cylinder ? occt::Built(plate.cells[0]) : occt::Built(plate.solid);
}

/// Judges the pairs of one plate after the other, two plates at a time, so that a plate is built once; each
/// result has its own place, so the order of work does not show.
std::vector<Verdict> judgeAll(const FitResult& live, const std::vector<FitSolid>& solids,
                              const PlateSet& plates, const Job& job) {
    std::map<std::string, const FitSolid*> solidOf;
    for (const FitSolid& s : solids) solidOf.emplace(s.name, &s);
    std::map<std::string, std::vector<std::size_t>> pairsOfPlate;
    for (std::size_t i = 0; i < live.pairs.size(); ++i) pairsOfPlate[live.pairs[i].plate].push_back(i);
    std::vector<std::pair<const Plate*, std::vector<std::size_t>>> tasks;
    for (const Plate& p : plates.plates) {
        const auto pairs = pairsOfPlate.extract(p.name);
        if (!pairs.empty()) tasks.emplace_back(&p, pairs.mapped());
    }
    std::vector<Verdict> verdicts(live.pairs.size());
    std::atomic<std::size_t> next = 0, done = 0;
    const auto work = [&](bool reports) {
        std::map<std::string, occt::Built> builtSolids; // this thread's own
        for (std::size_t k = next++; k < tasks.size() && !job.stopped(); k = next++) {
            const occt::Built plate = builtOf(*tasks[k].first);
            for (const std::size_t i : tasks[k].second) {
                if (job.stopped()) return;
                const auto solid = solidOf.find(live.pairs[i].solid);
                if (solid == solidOf.end()) continue;
                const auto built = builtSolids.try_emplace(solid->first, solid->second->shape).first;
                verdicts[i] = judge(live.pairs[i], built->second, plate, Job{job.stop, {}});
                ++done;
            }
            if (reports) job.report(static_cast<double>(done) / static_cast<double>(live.pairs.size()));
        }
    };
    {
        const std::jthread helper(work, false);
        work(true);
    }
    return verdicts;
}

/// Takes the verdict over. @return false if the live figure was off by more than the agreement
bool take(FitPair& pair, const Verdict& v) {
    pair.confirmed = true;
    const bool meets = v.distance <= agreement && v.volume > 0;
    const bool wasHit = pair.state == FitState::hits;
    // A sliver of common volume beside a live touch, or a touch beside a live sliver, is the same place.
    const bool same = wasHit == meets || (wasHit ? pair.depth <= agreement : pair.clearance <= agreement);
    const bool agrees = same && (wasHit || std::abs(v.distance - pair.clearance) <= agreement);
    if (wasHit && agrees && v.volume > 0 &&
        (pair.volume == 0 || std::abs(pair.volume - v.volume) > 1e-6 * v.volume))
        pair.volume = v.volume;
    if (agrees) return true;
    pair.state = meets ? FitState::hits : apartState(v.distance, pair.wanted);
    pair.clearance = meets ? 0 : v.distance;
    if (!meets) pair.depth = 0;
    pair.volume = v.volume;
    pair.onSolid = v.onSolid;
    pair.onPlate = v.onPlate;
    return false;
}

} // namespace

FitResult confirmedFit(const FitResult& live, const std::vector<FitSolid>& solids, const PlateSet& plates,
                       const Job& job, const FitWords& words) {
    const std::vector<Verdict> verdicts = judgeAll(live, solids, plates, job);
    if (job.stopped()) return live;
    FitResult fit;
    fit.pairs = live.pairs;
    fit.confirmed = true;
    std::vector<Finding> doubts;
    std::map<std::string, std::string> subjects;
    for (const Plate& plate : plates.plates) subjects[plate.name] = subjectOf(plate);
    for (std::size_t i = 0; i < fit.pairs.size(); ++i) {
        FitPair& pair = fit.pairs[i];
        const std::vector<std::string> about = {"solid:" + pair.solid, subjects[pair.plate]};
        if (!verdicts[i].judged) {
            fit.confirmed = false;
            doubts.push_back(
                {Severity::note,
                 "fit-unconfirmed",
                 "The clearance of " + pair.solid + " to " + pair.plate +
                     " could not be confirmed: " + verdicts[i].why,
                 about,
                 "Look at this place in a section; where it is a plate of a form, check that its outline "
                 "does not cross itself.",
                 {}});
        } else if (!take(pair, verdicts[i])) {
            doubts.push_back({Severity::note,
                              "fit-verdict",
                              "The closer look at " + pair.solid + " and " + pair.plate + " gave " +
                                  printLength(pair.clearance, words.units) + ", not what was shown live.",
                              about,
                              "The closer figure is used; nothing to do.",
                              {}});
        }
    }
    summarise(fit, solids, plates, words);
    fit.findings.insert(fit.findings.end(), doubts.begin(), doubts.end());
    return fit;
}

} // namespace slab
