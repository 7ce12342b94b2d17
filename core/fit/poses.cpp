#include "core/fit/poses.h"
#include "core/fit/moving.h"
#include "core/fit/pieces.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <cctype>
#include <map>

namespace slab {

namespace {

using Posed = FitResult::Posed;
using PairNames = std::pair<std::string, std::string>; ///< solid and plate

/// The worst pose of each pair, as far as it is worse than at rest.
class WorstPosed {
public:
    explicit WorstPosed(FitResult& fit) : m_fit(fit) {
        for (const auto* all : {&fit.pairs, &fit.swept})
            for (const FitPair& p : *all) {
                const auto [at, fresh] = m_rest.try_emplace({p.solid, p.plate}, marginOf(p));
                if (!fresh) at->second = std::min(at->second, marginOf(p));
                see(p);
            }
        for (std::size_t i = 0; i < fit.posed.size(); ++i) {
            m_index[{fit.posed[i].pair.solid, fit.posed[i].pair.plate}] = i;
            see(fit.posed[i].pair);
        }
    }
    /// How near a plate must come to a solid to matter.
    [[nodiscard]] double within(const FitSolid& solid) const {
        return std::max({solid.clearance, m_clearance, m_margin + solid.clearance});
    }
    void take(FitPair pair, const std::string& words) {
        const bool least = marginOf(pair) < m_margin || pair.clearance < m_clearance;
        if (pair.state == FitState::fits && !least) return;
        const PairNames names{pair.solid, pair.plate};
        const auto rest = m_rest.find(names);
        if (rest != m_rest.end() && marginOf(pair) >= rest->second) return;
        see(pair);
        const auto [at, fresh] = m_index.try_emplace(names, m_fit.posed.size());
        if (fresh)
            m_fit.posed.push_back({std::move(pair), words});
        else if (marginOf(pair) < marginOf(m_fit.posed[at->second].pair))
            m_fit.posed[at->second] = {std::move(pair), words};
    }
    /// What fits and is no longer the least of anything was only on the way to that.
    void finish() {
        std::erase_if(m_fit.posed, [&](const Posed& p) {
            return p.pair.state == FitState::fits && marginOf(p.pair) > m_margin &&
                   p.pair.clearance > m_clearance;
        });
    }

private:
    void see(const FitPair& pair) {
        m_clearance = std::min(m_clearance, pair.clearance);
        m_margin = std::min(m_margin, marginOf(pair));
    }

    FitResult& m_fit;
    double m_clearance = 1e9, m_margin = 1e9; ///< least so far
    std::map<PairNames, double> m_rest;       ///< margins
    std::map<PairNames, std::size_t> m_index;
};

const FitSolid* solidNamed(const PoseField& field, const std::string& name) {
    const auto it = std::find_if(field.solids.begin(), field.solids.end(),
                                 [&](const FitSolid& s) { return s.name == name; });
    return it == field.solids.end() ? nullptr : &*it;
}

FitState atRest(const FitResult& fit, const FitPair& pair) {
    FitState state = FitState::fits;
    for (const auto* all : {&fit.pairs, &fit.swept})
        for (const FitPair& p : *all)
            if (p.solid == pair.solid && p.plate == pair.plate) state = std::max(state, p.state);
    return state;
}

/// Of parts that are no plates: the mechanism that they belong to.
using Owners = std::map<std::string, std::string>;

std::string subject(const std::string& plate, const PoseField& field, const Owners& owners) {
    for (const Plate& p : field.plates.plates)
        if (p.name == plate) return subjectOf(p);
    const auto owner = owners.find(plate);
    return owner == owners.end() ? "plate:" + plate : "mechanism:" + owner->second;
}

/// One finding for all pairs of one solid that share a state and were better at rest.
Finding poseFinding(const std::vector<const Posed*>& pairs, const PoseField& field, const Owners& owners) {
    const UnitStyle& style = field.words.units;
    const Posed& worst = **std::min_element(pairs.begin(), pairs.end(), [](const Posed* a, const Posed* b) {
        return marginOf(a->pair) < marginOf(b->pair);
    });
    const FitPair& p = worst.pair;
    const bool hits = p.state == FitState::hits;
    Finding f;
    f.severity = hits ? Severity::stop : Severity::look;
    f.code = hits ? "pose-hits" : "pose-tight";
    f.message = worst.words + ": " + p.solid +
                (hits ? " runs into " + p.plate + ", " + printLength(p.depth, style) + " deep"
                      : ", " + printLength(p.clearance, style) + " to " + p.plate + "; wanted " +
                            printLength(p.wanted, style));
    f.message.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(f.message.front())));
    if (pairs.size() > 1)
        f.message +=
            "; " + std::to_string(pairs.size() - 1) + (pairs.size() == 2 ? " more plate" : " more plates");
    f.message += ".";
    const auto owner = owners.find(p.plate);
    const std::string usual = owner == owners.end()
                                  ? remedyOf(p, solidNamed(field, p.solid), field.plates, field.words)
                                  : "Move " + owner->second + " away from there, or give it less travel.";
    const bool leans = worst.words.starts_with("leaning");
    f.remedy = (leans ? "Let the rider lean less, or: " : "") + usual;
    f.about.push_back("solid:" + p.solid);
    const auto add = [&](const std::string& about) {
        if (std::find(f.about.begin(), f.about.end(), about) == f.about.end()) f.about.push_back(about);
    };
    add(subject(p.plate, field, owners));
    for (const Posed* other : pairs) add(subject(other->pair.plate, field, owners));
    const Vec3 at = (p.onSolid + p.onPlate) / 2;
    f.at = std::array<double, 3>{at.x(), at.y(), at.z()};
    return f;
}

/// Totals and findings with what is posed.
void judgePosed(FitResult& fit, const PoseField& field, const Owners& owners = {}) {
    for (const Posed& p : fit.posed) {
        const bool first = fit.pairs.empty() && fit.swept.empty() && &p == &fit.posed.front();
        const double margin = marginOf(p.pair);
        fit.leastClearance = first ? p.pair.clearance : std::min(fit.leastClearance, p.pair.clearance);
        fit.leastMargin = first ? margin : std::min(fit.leastMargin, margin);
        fit.state = std::max(fit.state, p.pair.state);
    }
    std::erase_if(fit.findings,
                  [](const Finding& f) { return f.code == "pose-hits" || f.code == "pose-tight"; });
    for (const FitState state : {FitState::hits, FitState::tight})
        for (const FitSolid& solid : field.solids) {
            std::vector<const Posed*> pairs;
            for (const Posed& p : fit.posed)
                if (p.pair.solid == solid.name && p.pair.state == state && atRest(fit, p.pair) < state)
                    pairs.push_back(&p);
            if (!pairs.empty()) fit.findings.push_back(poseFinding(pairs, field, owners));
        }
}

} // namespace

std::vector<PosedSolid> posedSolids(const std::vector<DonorPose>& poses) {
    std::vector<PosedSolid> all;
    std::map<std::string, std::vector<std::size_t>> seen;
    for (const DonorPose& pose : poses)
        for (const FitSolid& s : pose.solids) {
            std::vector<std::size_t>& same = seen[s.name];
            if (std::any_of(same.begin(), same.end(), [&](std::size_t i) { return all[i].solid == s; }))
                continue;
            same.push_back(all.size());
            all.push_back({s, pose.words});
        }
    return all;
}

FitResult withPoses(FitResult rest, const PoseField& field) {
    if (field.posed.empty()) return rest;
    WorstPosed worst(rest);
    Pieces pieces(field.plates);
    for (const PosedSolid& p : field.posed)
        for (FitPair& pair : pairsOf(p.solid, pieces, field.plates, worst.within(p.solid)))
            worst.take(std::move(pair), p.words);
    worst.finish();
    judgePosed(rest, field);
    return rest;
}

FitResult confirmedPoses(FitResult rest, const FitResult& live, const PoseField& field, KnownPairs& known,
                         const Job& job) {
    if (live.posed.empty()) return rest;
    // Each pair by itself, the solid named with its pose: it may be in another one for another plate.
    FitResult asked;
    std::vector<FitSolid> solids;
    const auto named = [](const Posed& p) { return p.pair.solid + ", " + p.words; };
    for (const Posed& p : live.posed) {
        FitPair pair = p.pair;
        pair.solid = named(p);
        const auto posed = std::find_if(field.posed.begin(), field.posed.end(), [&](const PosedSolid& s) {
            return s.solid.name == p.pair.solid && s.words == p.words;
        });
        if (posed != field.posed.end()) {
            solids.push_back(posed->solid);
            solids.back().name = pair.solid;
        }
        asked.pairs.push_back(std::move(pair));
    }
    const FitResult answer = confirmedFit(asked, solids, field.plates, known, job, field.words);
    rest.posed = live.posed;
    for (std::size_t i = 0; i < rest.posed.size(); ++i) {
        const std::string solid = rest.posed[i].pair.solid;
        rest.posed[i].pair = answer.pairs[i];
        rest.posed[i].pair.solid = solid;
    }
    if (!job.stopped()) rest.confirmed = rest.confirmed && answer.confirmed;
    for (Finding f : answer.findings) {
        if (f.code != "fit-unconfirmed" && f.code != "fit-verdict") continue;
        for (std::string& about : f.about)
            for (const Posed& p : rest.posed)
                if (about == "solid:" + named(p)) about = "solid:" + p.pair.solid;
        rest.findings.push_back(std::move(f));
    }
    judgePosed(rest, field);
    return rest;
}

FitResult withPosedMoving(FitResult fit, const PoseField& field, const MechanismSet& set, const PlateSet& cut,
                          const Job& job) {
    const MovingThings things(set, cut);
    if (field.posed.empty() || things.empty()) return fit;
    WorstPosed worst(fit);
    for (const PosedSolid& p : field.posed) {
        if (job.stopped()) return fit;
        for (auto& [pair, moved] : things.nearTo(p.solid, worst.within(p.solid)))
            worst.take(std::move(pair), p.words + (moved.empty() ? "" : ", " + moved));
    }
    worst.finish();
    Owners owners;
    for (const MovingSolid& s : set.solids) owners.emplace(s.name, s.mechanism);
    judgePosed(fit, field, owners);
    return fit;
}

} // namespace slab
