#pragma once
// Long tubes in short lengths, for searches whose bounds grow with the distance from an axis.
#include "core/geometry/convex.h"
#include "core/mechanisms/motion.h"

namespace slab {

/// The same pieces, cylinders that reach farther than 4 m from where the first move turns cut across in
/// lengths that double with that distance: together they are the same solid. Unchanged where none does.
[[nodiscard]] std::vector<ConvexSolid> inShortLengths(const Motion& motion,
                                                      const std::vector<ConvexSolid>& pieces);

} // namespace slab
