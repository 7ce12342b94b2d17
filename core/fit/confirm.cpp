#include "core/fit/known_pairs.h"
#include "core/fit/pieces.h"
#include "core/geometry/occt.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <thread>

namespace slab {

namespace {

constexpr double agreement = 1e-6; ///< mm; a live figure this near to OpenCASCADE's is kept

/// Whether the live figure's points lie in both solids as far apart as it says, by OpenCASCADE itself. Its
/// search for the least distance of what is round misses that now and then: no larger one can be right then.
bool isNearer(const FitPair& pair, const occt::Built& solid, const occt::Built& plate) {
    if ((pair.onSolid - pair.onPlate).norm() > pair.clearance + agreement) return false;
    const auto inSolid = occt::holds(solid, pair.onSolid, agreement),
               inPlate = occt::holds(plate, pair.onPlate, agreement);
    return inSolid && inPlate && *inSolid && *inPlate;
}

PairVerdict judge(const FitPair& pair, const occt::Built& solid, const occt::Built& plate, const Job& job) {
    PairVerdict v;
    const auto near = occt::nearest(plate, solid);
    if (!near) {
        v.why = near.error().message;
        return v;
    }
    v.distance = near->distance;
    v.onSolid = near->onB;
    v.onPlate = near->onA;
    if (pair.state != FitState::hits && !near->meets && v.distance > pair.clearance + agreement &&
        isNearer(pair, solid, plate)) {
        v.distance = pair.clearance;
        v.onSolid = pair.onSolid;
        v.onPlate = pair.onPlate;
    }
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
bool isCylinder(const Plate& plate) {
    return plate.cells.size() == 1 && plate.cells[0].kind == ConvexSolid::Kind::cylinder;
}
occt::Built builtOf(const Plate& plate) {
    return isCylinder(plate) ? occt::Built(plate.cells[0]) : occt::Built(plate.solid);
}

KnownPairs::Known asIs(const FitPair& pair, const FitSolid& solid, const Plate& plate) {
    return {solid.shape,
            plate.solid,
            isCylinder(plate) ? plate.cells : std::vector<ConvexSolid>{},
            pair.state == FitState::hits,
            {}};
}
bool unchanged(const KnownPairs::Known& a, const KnownPairs::Known& b) {
    return a.hits == b.hits && a.solid == b.solid && a.plate == b.plate && a.cells == b.cells;
}

/// Shapes of every pair, and the verdicts that are known of them.
struct Looked {
    std::vector<KnownPairs::Known> pairs;
    std::vector<bool> known;
};
Looked lookedUp(const FitResult& live, const std::vector<FitSolid>& solids, const PlateSet& plates,
                KnownPairs& known) {
    std::map<std::string, const FitSolid*> solidOf;
    std::map<std::string, const Plate*> plateOf;
    for (const FitSolid& s : solids) solidOf.emplace(s.name, &s);
    for (const Plate& p : plates.plates) plateOf.emplace(p.name, &p);
    Looked looked;
    known.reused = 0;
    for (const FitPair& pair : live.pairs) {
        const auto solid = solidOf.find(pair.solid);
        const auto plate = plateOf.find(pair.plate);
        looked.known.push_back(false);
        looked.pairs.emplace_back();
        if (solid == solidOf.end() || plate == plateOf.end()) continue;
        looked.pairs.back() = asIs(pair, *solid->second, *plate->second);
        const auto before = known.pairs.find({pair.solid, pair.plate});
        if (before == known.pairs.end() || !unchanged(before->second, looked.pairs.back())) continue;
        looked.pairs.back().verdict = before->second.verdict;
        looked.known.back() = true;
        ++known.reused;
    }
    return looked;
}

/// Judges the pairs of one plate after the other, two plates at a time, so that a plate is built once; each
/// result has its own place, so the order of work does not show.
void judgeAll(Looked& looked, const FitResult& live, const std::vector<FitSolid>& solids,
              const PlateSet& plates, const Job& job) {
    std::map<std::string, const FitSolid*> solidOf;
    for (const FitSolid& s : solids) solidOf.emplace(s.name, &s);
    std::map<std::string, std::vector<std::size_t>> pairsOfPlate;
    for (std::size_t i = 0; i < live.pairs.size(); ++i)
        if (!looked.known[i]) pairsOfPlate[live.pairs[i].plate].push_back(i);
    std::vector<std::pair<const Plate*, std::vector<std::size_t>>> tasks;
    for (const Plate& p : plates.plates) {
        const auto pairs = pairsOfPlate.extract(p.name);
        if (!pairs.empty()) tasks.emplace_back(&p, pairs.mapped());
    }
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
                looked.pairs[i].verdict = judge(live.pairs[i], built->second, plate, Job{job.stop, {}});
                ++done;
            }
            if (reports) job.report(static_cast<double>(done) / static_cast<double>(live.pairs.size()));
        }
    };
    if (tasks.empty()) return;
    const std::jthread helper(work, false);
    work(true);
}

/// Takes the verdict over. @return false if the live figure was off by more than the agreement
bool take(FitPair& pair, const PairVerdict& v) {
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
    KnownPairs nothing;
    return confirmedFit(live, solids, plates, nothing, job, words);
}

FitResult confirmedFit(const FitResult& live, const std::vector<FitSolid>& solids, const PlateSet& plates,
                       KnownPairs& known, const Job& job, const FitWords& words) {
    Looked looked = lookedUp(live, solids, plates, known);
    judgeAll(looked, live, solids, plates, job);
    if (job.stopped()) return live;
    known.pairs.clear();
    FitResult fit;
    fit.pairs = live.pairs;
    fit.confirmed = true;
    std::vector<Finding> doubts;
    std::map<std::string, std::string> subjects;
    for (const Plate& plate : plates.plates) subjects[plate.name] = subjectOf(plate);
    for (std::size_t i = 0; i < fit.pairs.size(); ++i) {
        FitPair& pair = fit.pairs[i];
        const PairVerdict& verdict = looked.pairs[i].verdict;
        const std::vector<std::string> about = {"solid:" + pair.solid, subjects[pair.plate]};
        if (!verdict.judged) {
            fit.confirmed = false;
            doubts.push_back(
                {Severity::note,
                 "fit-unconfirmed",
                 "The clearance of " + pair.solid + " to " + pair.plate +
                     " could not be confirmed: " + verdict.why,
                 about,
                 "Look at this place in a section; where it is a plate of a form, check that its outline "
                 "does not cross itself.",
                 {}});
        } else if (!take(pair, verdict)) {
            doubts.push_back({Severity::note,
                              "fit-verdict",
                              "The closer look at " + pair.solid + " and " + pair.plate + " gave " +
                                  printLength(pair.clearance, words.units) + ", not what was shown live.",
                              about,
                              "The closer figure is used; nothing to do.",
                              {}});
        }
    }
    for (std::size_t i = 0; i < fit.pairs.size(); ++i)
        known.pairs.insert_or_assign({live.pairs[i].solid, live.pairs[i].plate}, std::move(looked.pairs[i]));
    summarise(fit, solids, plates, words);
    fit.findings.insert(fit.findings.end(), doubts.begin(), doubts.end());
    return fit;
}

} // namespace slab
