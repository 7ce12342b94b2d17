#include "core/fit/pieces.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

namespace slab {

double marginOf(const FitPair& pair) {
    return (pair.state == FitState::hits ? -pair.depth : pair.clearance) - pair.wanted;
}

const FitPair* bindingPair(const FitResult& fit) {
    const FitPair* least = nullptr;
    for (const auto* all : {&fit.pairs, &fit.swept})
        for (const FitPair& p : *all)
            if (!least || marginOf(p) < marginOf(*least)) least = &p;
    for (const FitResult::Posed& p : fit.posed)
        if (!least || marginOf(p.pair) < marginOf(*least)) least = &p.pair;
    return least;
}

Probe probeOf(const FitResult& fit) {
    if (!fit.outside.empty()) {
        const auto worst = std::max_element(fit.outside.begin(), fit.outside.end(),
                                            [](const auto& a, const auto& b) { return a.gap < b.gap; });
        const double missing = -std::max(worst->gap, touchDepth);
        return {missing, missing, worst->group + " outside the body"};
    }
    const FitPair* pair = bindingPair(fit);
    if (!pair) return {1e9, 1e9, {}};
    // The binding pair may be a tight one with a large wish; a hit elsewhere still is a hit.
    double clearance = 1e9;
    for (const auto* all : {&fit.pairs, &fit.swept})
        for (const FitPair& p : *all)
            clearance = std::min(clearance, p.state == FitState::hits ? -p.depth : p.clearance);
    std::string words;
    for (const FitResult::Posed& p : fit.posed) {
        clearance = std::min(clearance, p.pair.state == FitState::hits ? -p.pair.depth : p.pair.clearance);
        if (&p.pair == pair) words = ", " + p.words;
    }
    return {marginOf(*pair), clearance, pair->solid + " – " + pair->plate + words};
}

namespace {

/// Side of the body that a plate faces, and where the donor goes to get away from it.
struct SideWords {
    const char *side, *away;
};

SideWords sideOf(const Plate& plate) {
    const Vec3 out = plate.frame.axes.col(2);
    int axis = 0;
    out.cwiseAbs().maxCoeff(&axis);
    const bool positive = out[axis] > 0;
    if (axis == 0) return positive ? SideWords{"Front", "back"} : SideWords{"Back", "forward"};
    const Box3 box = bounds(plate.solid);
    if (axis == 1 && box.min.y() < 0 && box.max.y() > 0) return {"Middle", "to one side"};
    if (axis == 1)
        return positive ? SideWords{"Port side", "to starboard"} : SideWords{"Starboard side", "to port"};
    return positive ? SideWords{"Top", "down"} : SideWords{"Underside", "up"};
}

/// What the builder can do. Donor and rider stand on the ground: nothing is moved up or down out of a floor
/// or a roof, and a larger floor does not clear the wheels that pass through it.
std::string remedyFor(const FitPair& pair, const FitSolid* solid, const Plate* plate,
                      const SideWords& words) {
    const bool hits = pair.state == FitState::hits, rider = solid && solid->group == "rider";
    const std::string out =
        (hits ? "cut an opening, or leave out " : "lower the wanted clearance, or leave out ") + pair.plate +
        ".";
    const double lean = plate ? plate->frame.axes.col(2).z() : 0;
    const bool level = plate && std::abs(lean) >= plate->frame.axes.col(2).head<2>().cwiseAbs().maxCoeff();
    if (!level)
        return std::string("Move the ") + (rider ? "rider " : "donor ") + words.away + ", raise the scale, " +
               out;
    if (lean > 0)
        return "Raise the form's top, raise the scale, " + std::string(rider ? "lower the seat, " : "") + out;
    constexpr double below = 1; // mm
    if (solid && bounds(solid->shape).min.z() < bounds(plate->solid).min.z() - below)
        return "Cut an opening in " + pair.plate +
               " for it, leave out that plate, or lift the form for more ground "
               "clearance.";
    return "Lower the form's floor, " + out;
}

std::optional<PartOwner> ownerOf(const Plate* plate, const FitWords& words) {
    if (!plate || plate->face >= 0) return {}; // a form may have a mechanism's name
    if (standsForRound(*plate)) return PartOwner{"round form", plate->name, subjectOf(*plate)};
    const auto it = words.owners.find(plate->form);
    return it == words.owners.end() ? std::nullopt : std::optional(it->second);
}

/// A part of a mechanism or a frame has no side of the body and no form: it goes with what it belongs to.
std::string remedyFor(const FitPair& pair, const PartOwner& owner, const FitWords& words) {
    const bool hits = pair.state == FitState::hits, board = owner.kind == "frame";
    const double away = hits ? pair.depth + pair.wanted : pair.wanted - pair.clearance;
    const double step = isInch(words.units) ? 25.4 / words.units.denominator : 0.1; // as it is printed
    const std::string by = printLength(std::ceil(away / step - 1e-6) * step, words.units);
    return "Move " + owner.words() + " at least " + by + " away from " + pair.solid +
           (board ? ", give it a larger clearance" : ", make it smaller") +
           (hits ? ", or raise the scale." : ", or lower the wanted clearance.");
}

std::string headOf(const PartOwner& owner) {
    std::string words = owner.words();
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    return words;
}

std::string others(std::size_t count, const char* word) {
    if (count == 0) return ".";
    return "; " + std::to_string(count) + (count == 1 ? " more plate " : " more plates ") + word + ".";
}

const Plate* plateNamed(const PlateSet& plates, const std::string& name) {
    const auto it = std::find_if(plates.plates.begin(), plates.plates.end(),
                                 [&](const Plate& p) { return p.name == name; });
    return it == plates.plates.end() ? nullptr : &*it;
}

const FitPair& worstOf(const std::vector<const FitPair*>& pairs) {
    return **std::min_element(pairs.begin(), pairs.end(),
                              [](const FitPair* a, const FitPair* b) { return marginOf(*a) < marginOf(*b); });
}

/// One finding for all pairs of one solid that share a state: the worst is told, the others are counted.
Finding findingFor(const std::vector<const FitPair*>& pairs, const FitSolid* solid, const PlateSet& plates,
                   const FitWords& words) {
    const UnitStyle& style = words.units;
    const FitPair& worst = worstOf(pairs);
    const bool hits = worst.state == FitState::hits;
    const Plate* plate = plateNamed(plates, worst.plate);
    const char* side = plate ? sideOf(*plate).side : "There";
    const std::optional<PartOwner> owner = ownerOf(plate, words);
    const bool round = plate && standsForRound(*plate);
    const std::string where = round ? "Round form" : owner ? headOf(*owner) : side;
    Finding f;
    f.severity = hits ? Severity::stop : Severity::look;
    f.code = hits ? "fit-hits" : "fit-tight";
    if (hits) {
        f.message = where + ": " + worst.plate + " runs into " + worst.solid + ", " +
                    printLength(worst.depth, style) + " deep" + others(pairs.size() - 1, "hit");
    } else {
        f.message = where + ": " + worst.plate + ", " + printLength(worst.clearance, style) + " to " +
                    worst.solid + "; wanted " + printLength(worst.wanted, style) +
                    others(pairs.size() - 1, "near");
    }
    f.remedy = remedyOf(worst, solid, plates, words);
    f.about.push_back("solid:" + worst.solid);
    for (const FitPair* p : pairs) {
        const Plate* near = plateNamed(plates, p->plate);
        f.about.push_back(near ? subjectOf(*near) : "plate:" + p->plate);
    }
    const std::string first = plate ? subjectOf(*plate) : "plate:" + worst.plate;
    std::stable_partition(f.about.begin() + 1, f.about.end(),
                          [&](const std::string& a) { return a == first; });
    if (owner && !round) f.about.push_back(owner->about);
    const Vec3 at = (worst.onSolid + worst.onPlate) / 2;
    f.at = std::array<double, 3>{at.x(), at.y(), at.z()};
    return f;
}

} // namespace

std::string remedyOf(const FitPair& pair, const FitSolid* solid, const PlateSet& plates,
                     const FitWords& words) {
    const Plate* plate = plateNamed(plates, pair.plate);
    const auto owner = ownerOf(plate, words);
    return owner ? remedyFor(pair, *owner, words)
                 : remedyFor(pair, solid, plate, plate ? sideOf(*plate) : SideWords{"There", "away"});
}

void summarise(FitResult& fit, const std::vector<FitSolid>& solids, const PlateSet& plates,
               const FitWords& words) {
    fit.leastClearance = fit.leastMargin = 0;
    fit.state = FitState::fits;
    bool first = true;
    std::map<std::string, std::array<std::vector<const FitPair*>, 3>> bySolid;
    for (const FitPair& p : fit.pairs) {
        fit.leastClearance = first ? p.clearance : std::min(fit.leastClearance, p.clearance);
        fit.leastMargin = first ? marginOf(p) : std::min(fit.leastMargin, marginOf(p));
        fit.state = std::max(fit.state, p.state);
        first = false;
        bySolid[p.solid][static_cast<std::size_t>(p.state)].push_back(&p);
    }
    for (const FitState state : {FitState::hits, FitState::tight}) {
        std::vector<std::pair<double, Finding>> found; // by margin: the worst is told first
        for (const FitSolid& solid : solids) {
            const auto it = bySolid.find(solid.name);
            if (it == bySolid.end()) continue;
            const auto& pairs = it->second[static_cast<std::size_t>(state)];
            if (pairs.empty()) continue;
            found.emplace_back(marginOf(worstOf(pairs)), findingFor(pairs, &solid, plates, words));
        }
        std::stable_sort(found.begin(), found.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (auto& [margin, finding] : found) fit.findings.push_back(std::move(finding));
    }
    checkOutside(fit, solids, plates, words.units);
}

} // namespace slab
