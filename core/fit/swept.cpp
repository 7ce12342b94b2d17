#include "core/fit/swept.h"
#include "core/fit/moving.h"
#include <algorithm>
#include <set>

namespace slab {

namespace {

FitPair pairOf(const SweptCheck& check) {
    FitPair pair;
    pair.solid = check.fixed;
    pair.plate = check.moving;
    pair.wanted = check.wanted;
    pair.clearance = std::max(check.clearance, 0.0);
    pair.depth = std::max(-check.clearance, 0.0);
    pair.state = pair.depth > touchDepth ? FitState::hits : apartState(pair.clearance, pair.wanted);
    pair.onSolid = check.onFixed;
    pair.onPlate = check.onMoving;
    return pair;
}

/// State, least clearance and least margin are the worse of what is at rest and what is swept.
void judgeSwept(FitResult& fit) {
    for (const FitPair& p : fit.swept) {
        const bool first = fit.pairs.empty() && &p == &fit.swept.front();
        fit.leastClearance = first ? p.clearance : std::min(fit.leastClearance, p.clearance);
        fit.leastMargin = first ? marginOf(p) : std::min(fit.leastMargin, marginOf(p));
        fit.state = std::max(fit.state, p.state);
    }
}

} // namespace

FitResult withSwept(FitResult fit, const MechanismSet& set, const std::vector<FitSolid>& solids,
                    const PlateSet& plates) {
    std::set<std::string> people;
    for (const FitSolid& s : solids) people.insert(s.name);
    std::set<std::pair<std::string, std::string>> known;
    fit.swept.clear();
    for (const SweptCheck& check : set.checks)
        if (people.contains(check.fixed) && known.insert({check.moving, check.fixed}).second)
            fit.swept.push_back(pairOf(check));
    double least = fit.pairs.empty() ? 1e9 : fit.leastClearance;
    for (const FitPair& p : fit.swept) least = std::min(least, p.clearance);
    if (const auto nearer = nearestMoving(set, solids, plates, least))
        if (known.insert({nearer->plate, nearer->solid}).second) fit.swept.push_back(*nearer);
    judgeSwept(fit);
    return fit;
}

FitResult withMoving(FitResult fit, const MechanismSet& set, const std::vector<FitSolid>& solids,
                     const PlateSet& plates) {
    const MovingThings things(set, plates);
    fit.swept.clear();
    double least = fit.pairs.empty() ? 1e9 : fit.leastClearance;
    for (const FitSolid& solid : solids)
        for (const MovingThings::Found& found : things.nearTo(solid, least)) {
            least = std::min(least, found.pair.clearance);
            fit.swept.push_back(found.pair);
        }
    judgeSwept(fit);
    return fit;
}

const FitPair* bindingPair(const FitResult& fit, const FloatFit* afloat) {
    const FitPair* least = bindingPair(fit);
    if (afloat)
        for (const FloatPair& p : afloat->pairs)
            if (!least || marginOf(p.pair) < marginOf(*least)) least = &p.pair;
    return least;
}

FitState wholeState(const FitResult& fit, const FloatFit* afloat) {
    return afloat ? std::max(fit.state, afloat->state) : fit.state;
}

} // namespace slab
