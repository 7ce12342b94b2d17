#pragma once
// What meets or comes too near, told by its cause instead of pair by pair.
#include "core/mechanisms/sweep_things.h"

namespace slab::mechanisms {

/// A pair that is nearer than wanted.
struct MetPair {
    SweptCheck check;
    const Thing *moving = nullptr, *other = nullptr;
    Motion motion; ///< of `moving` as seen from `other`
    [[nodiscard]] bool meets() const;
};

using MoveRanges = std::vector<std::pair<double, double>>; ///< rising, none within another, radians or mm

/// Ranges of one move joined to one list; those of an endless turn may begin below zero, as rangesNearer()
/// gives them.
[[nodiscard]] MoveRanges joinedRanges(MoveRanges ranges, bool endless);
/// The values about `shown` that no range holds, between the ranges beside them (or the stops); nothing when
/// `shown` lies in one, or when there are no ranges.
[[nodiscard]] std::optional<std::pair<double, double>> freeAbout(const Move& move, const MoveRanges& ranges);

/// The mechanism whose move carries a thing last: a turntable for all that stands on it.
[[nodiscard]] std::string carrierOf(const Thing& thing, const MechanismSet& set);

/// What the builder can do about pairs of one carrier and one party, in figures where these can be given.
[[nodiscard]] std::string remedyFor(const std::vector<const MetPair*>& group, const MechanismSet& set,
                                    const UnitStyle& units);

/// One finding for what turns with one mechanism and each party that it meets: the shell, the rider, the
/// donor, another mechanism. It names the three worst things and counts the others; every pair stays in
/// MechanismSet::checks.
[[nodiscard]] std::vector<Finding> tellMet(const std::vector<MetPair>& met, const MechanismSet& set,
                                           const UnitStyle& units);

} // namespace slab::mechanisms
