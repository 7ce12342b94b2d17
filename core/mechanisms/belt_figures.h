#pragma once
// A belt as figures, and the wheels that it runs round.
#include "core/mechanisms/belt_path.h"
#include "core/mechanisms/reading.h"
#include <map>

namespace slab::mechanisms {

constexpr double usualLap = 40; ///< mm of strip ends that are glued on each other (common practice)

struct BeltFigures {
    std::string name;
    Frame view; ///< u forward, v up, w across (left-handed: towards port), on the middle of the belt
    std::vector<BeltCircle> circles;
    std::vector<double> diameters; ///< of the wheels
    double width = 0, thickness = 0, pitch = 0, lap = usualLap;
    const Sheet* card = nullptr;
    bool mirror = false;
};

/// "port " or "starboard " of a belt and its mirror image; nothing where there is one only.
[[nodiscard]] std::string handOf(const BeltFigures& f, bool first);
[[nodiscard]] bool isStarboard(const BeltFigures& f, bool first);

/// Wheels in one plane that would run into each other.
void checkWheels(const Belt& belt, Reading& read, const BeltFigures& f, const BeltLinks& fit);

/// The wheels, as wide as the belt, that are no forms of the document; what they weigh, it does not tell.
/// @return how many to buy, by diameter
std::map<double, int> addWheels(const Belt& belt, const BeltFigures& f, const BeltLinks& fit,
                                const std::vector<RoundPart>& rounds, MechanismSet& set);

} // namespace slab::mechanisms
