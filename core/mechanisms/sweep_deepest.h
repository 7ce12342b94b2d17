#pragma once
// How deep what meets does, at its deepest.
#include "core/mechanisms/sweep.h"

namespace slab {

/// leastOver() ends its search soon once pieces are known to meet; this looks for the deepest place. Poses
/// all over the range are looked at, and from the deepest of them, apart from each other, every move is
/// stepped to where it is deeper still.
/// @param seen   of leastOver(), which met; what is deeper takes its place, the proven bound stays
/// @param looks  distances at most
[[nodiscard]] SweepResult deepest(const Motion& motion, const std::vector<ConvexSolid>& moving,
                                  const std::vector<ConvexSolid>& fixed, SweepResult seen, int looks);

} // namespace slab
