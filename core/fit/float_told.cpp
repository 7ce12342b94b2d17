#include "core/fit/float_told.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>

namespace slab {

namespace {

std::string capital(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
}

std::string subject(const FitPair& pair, const FloatTold& told) {
    const auto owner = told.owners.find(pair.plate);
    if (owner != told.owners.end()) return "mechanism:" + owner->second;
    for (const Plate& plate : told.plates.plates)
        if (plate.name == pair.plate) return subjectOf(plate);
    return "plate:" + pair.plate;
}

/// One finding for all pairs of one solid that share a state and were better at rest.
Finding floatFinding(const std::vector<const FloatPair*>& pairs, const FloatTold& told) {
    const UnitStyle& style = told.style;
    const FloatPair& worst = **std::min_element(pairs.begin(), pairs.end(), [](const auto* a, const auto* b) {
        return marginOf(a->pair) < marginOf(b->pair);
    });
    const FitPair& p = worst.pair;
    const bool hits = p.state == FitState::hits;
    Finding f;
    f.severity = hits ? Severity::stop : Severity::look;
    f.code = hits ? "float-hits" : "float-tight";
    f.message = capital(worst.words) + ": " + p.plate +
                (hits ? " runs into " + p.solid + ", " + printLength(p.depth, style) + " deep"
                      : ", " + printLength(p.clearance, style) + " to " + p.solid + "; wanted " +
                            printLength(p.wanted, style));
    if (pairs.size() > 1)
        f.message +=
            "; " + std::to_string(pairs.size() - 1) + (pairs.size() == 2 ? " more plate" : " more plates");
    f.message += ".";
    f.remedy = told.remedy ? told.remedy(worst) : std::string();
    if (f.remedy.empty()) f.remedy = "Give the linkage less travel, move it, or make more room at rest.";
    const auto add = [&](const std::string& subject) {
        if (std::find(f.about.begin(), f.about.end(), subject) == f.about.end()) f.about.push_back(subject);
    };
    add("solid:" + p.solid);
    add(subject(p, told));
    for (const FloatPair* other : pairs) add(subject(other->pair, told));
    for (const std::string& name : told.linkages) add("mechanism:" + name);
    f.at = std::array<double, 3>{p.onPlate.x(), p.onPlate.y(), p.onPlate.z()};
    return f;
}

} // namespace

FitState stateAtRest(const FitResult& rest, const FitPair& pair) {
    FitState state = FitState::fits;
    for (const auto* all : {&rest.pairs, &rest.swept})
        for (const FitPair& p : *all)
            if (p.solid == pair.solid && p.plate == pair.plate) state = std::max(state, p.state);
    for (const FitResult::Posed& p : rest.posed)
        if (p.pair.solid == pair.solid && p.pair.plate == pair.plate) state = std::max(state, p.pair.state);
    return state;
}

void tellFloat(FloatFit& fit, const FloatTold& told) {
    fit.findings.clear();
    fit.leastClearance = fit.leastMargin = 0;
    fit.state = FitState::fits;
    bool first = true;
    for (const FloatPair& p : fit.pairs) {
        fit.leastClearance = first ? p.pair.clearance : std::min(fit.leastClearance, p.pair.clearance);
        fit.leastMargin = first ? marginOf(p.pair) : std::min(fit.leastMargin, marginOf(p.pair));
        fit.state = std::max(fit.state, p.pair.state);
        first = false;
    }
    for (const FitState state : {FitState::hits, FitState::tight})
        for (const FitSolid& solid : told.solids) {
            std::vector<const FloatPair*> pairs;
            for (const FloatPair& p : fit.pairs)
                if (p.pair.solid == solid.name && p.pair.state == state &&
                    stateAtRest(told.rest, p.pair) < state)
                    pairs.push_back(&p);
            if (!pairs.empty()) fit.findings.push_back(floatFinding(pairs, told));
        }
}

} // namespace slab
