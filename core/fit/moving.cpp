#include "core/fit/moving.h"
#include "core/mechanisms/sweep_pairs.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

using mechanisms::Thing;

constexpr int mostSteps = 4000;   ///< distances at most for one pair in one pose of the shell
constexpr int stepsOnceMet = 100; ///< then the depth is what was seen

Thing thingOf(const FitSolid& s) {
    return {Thing::Kind::donor, {}, s.name, s.group, {s.shape}, -1, s.clearance, MovingSolid::Meets::all};
}

SweepOptions optionsFor(const Motion& motion, double enough) {
    SweepOptions options;
    options.enough = enough;
    options.steps = mostSteps;
    options.stepsOnceMet = stepsOnceMet;
    if (motion.moves.size() > 1) options.tolerance = 0.01; // mm; the search grows fast with the moves
    return options;
}

/// A depth is searched to 2 %, and what is deepest at a stop is found beside it: there it is looked at
/// exactly.
SweepResult atStops(const Motion& motion, const std::vector<ConvexSolid>& ours,
                    const std::vector<ConvexSolid>& theirs, SweepResult found) {
    constexpr double beside = 0.05; // of the range
    Motion still = motion;
    bool some = false;
    for (std::size_t i = 0; i < still.moves.size(); ++i) {
        Move& m = still.moves[i];
        double value = found.at[i];
        for (const double stop : {m.from, m.to})
            if (!m.endless && value != stop && std::abs(value - stop) < beside * (m.to - m.from)) {
                value = stop;
                some = true;
            }
        m.from = m.to = value;
        m.endless = false;
    }
    if (!some) return found;
    SweepResult there = leastOver(still, ours, theirs);
    return there.clearance < found.clearance ? there : found;
}

} // namespace

MovingThings::MovingThings(const MechanismSet& set, const PlateSet& plates) {
    for (Thing& t : mechanisms::thingsOf(set, plates, {})) {
        if (t.motion < 0 && t.kind != Thing::Kind::solid) continue; // the fit has it as it stands
        if (t.meets == MovingSolid::Meets::plates || t.pieces.empty()) continue;
        m_motions.push_back(t.motion < 0 ? Motion{} : set.motions[static_cast<std::size_t>(t.motion)]);
        m_things.push_back(std::move(t));
    }
}

std::vector<MovingThings::Found> MovingThings::nearTo(const FitSolid& solid, double least) const {
    std::vector<Found> out;
    if (solid.shape.points.empty()) return out;
    const Thing fixed = thingOf(solid);
    for (std::size_t i = 0; i < m_things.size(); ++i) {
        const double enough = std::max(solid.clearance - touchDepth, least);
        if (mechanisms::leastBetween(m_things[i], fixed, m_motions[i]) >= enough) continue;
        const auto [ours, theirs] = mechanisms::piecesWithin(m_things[i], fixed, m_motions[i], enough);
        if (ours.empty()) continue;
        SweepResult r = leastOver(m_motions[i], ours, theirs, optionsFor(m_motions[i], enough));
        if (r.above) continue;
        if (r.clearance < 0) r = atStops(m_motions[i], ours, theirs, std::move(r));
        Found found{{}, m_motions[i].moves.empty() ? std::string() : poseWords(m_motions[i], r.at)};
        found.pair.solid = solid.name;
        found.pair.plate = m_things[i].name;
        found.pair.wanted = solid.clearance;
        found.pair.clearance = std::max(r.clearance, 0.0);
        found.pair.depth = std::max(-r.clearance, 0.0);
        found.pair.state =
            r.clearance < -touchDepth ? FitState::hits : apartState(found.pair.clearance, solid.clearance);
        found.pair.onSolid = r.onFixed;
        found.pair.onPlate = r.onMoving;
        least = std::min(least, found.pair.clearance);
        out.push_back(std::move(found));
    }
    return out;
}

bool MovingThings::tooNear(const FitSolid& solid, const std::vector<std::string>& except) const {
    if (solid.shape.points.empty()) return false;
    const Thing fixed = thingOf(solid);
    const double enough = solid.clearance - touchDepth;
    for (std::size_t i = 0; i < m_things.size(); ++i) {
        if (std::find(except.begin(), except.end(), m_things[i].name) != except.end()) continue;
        if (mechanisms::leastBetween(m_things[i], fixed, m_motions[i]) >= enough) continue;
        const auto [ours, theirs] = mechanisms::piecesWithin(m_things[i], fixed, m_motions[i], enough);
        if (ours.empty()) continue;
        SweepOptions options = optionsFor(m_motions[i], enough);
        options.stop = enough;
        const SweepResult r = leastOver(m_motions[i], ours, theirs, options);
        if (r.clearance < enough || r.bound < enough - 2 * options.tolerance) return true;
    }
    return false;
}

std::optional<FitPair> nearestMoving(const MechanismSet& set, const std::vector<FitSolid>& solids,
                                     const PlateSet& plates, double least) {
    std::optional<FitPair> nearest;
    const MovingThings things(set, plates);
    for (const FitSolid& solid : solids)
        for (const auto& [pair, words] : things.nearTo(solid, least)) {
            if (pair.clearance >= least) continue;
            least = pair.clearance;
            nearest = pair;
        }
    return nearest;
}

} // namespace slab
