#pragma once
// From the stem of a T into one of its arms. mm and radians.
#include "core/route/corner.h"

namespace slab::route {

/// A stem that meets the middle of a straight corridor at a right angle, both inner edges sharp.
struct Tee {
    double stem = 0, arms = 0; ///< clear widths, mm
    bool operator==(const Tee&) const = default;
};

/// Moved from the stem into the arm to port in any way that keeps turning towards it, its far end free to
/// swing into the other arm: what an L corner of the same widths lets through the T lets through as well. At
/// each heading it is pushed against the far wall, which never hurts, and what is still in the stem is set
/// midway; so only the heading is left to search, by branch and bound as in carryRound().
/// @param tolerance  mm, above 0
/// @return  `at` is where the inner edge beside that arm then is, in the vehicle's axes; `firstWall` the
/// corner
///          of the outline next to the far wall, `secondWall` the one next to the other arm's inner edge
/// @error "out-of-range"
[[nodiscard]] Expected<CornerPassage> carryIntoArm(const Footprint& footprint, const Tee& tee,
                                                   double tolerance = 0.02);

} // namespace slab::route
