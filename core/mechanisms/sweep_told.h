#pragma once
// What meets or comes too near, told by its cause instead of pair by pair.
#include "core/mechanisms/sweep_pairs.h"
#include <memory>

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

/// What the builder can do about pairs of one carrier and one party, in figures that were tried on everything
/// that is swept.
/// @param met  all pairs of the document
class Remedies {
public:
    Remedies(const std::vector<MetPair>& met, const SweepField& field, const UnitStyle& units);
    ~Remedies();
    /// @param carrier  of the group's pairs, or a mechanism that is met by them
    [[nodiscard]] std::string wordsFor(const std::vector<const MetPair*>& group, const std::string& carrier);

private:
    struct Kept;
    std::unique_ptr<Kept> m_kept;
};

/// One finding for what turns with one mechanism and each party that it meets: the shell, the rider, the
/// donor, another mechanism. It names the three worst things and counts the others; every pair stays in
/// MechanismSet::checks.
[[nodiscard]] std::vector<Finding> tellMet(const std::vector<MetPair>& met, const SweepField& field,
                                           const UnitStyle& units);

} // namespace slab::mechanisms
