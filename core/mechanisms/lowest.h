#pragma once
// How low a moving part comes.
#include "core/geometry/convex.h"
#include "core/mechanisms/motion.h"

namespace slab {

struct LowestPlace {
    Vec3 at = Vec3::Zero();     ///< body axes
    std::vector<double> values; ///< of the moves there
    bool operator==(const LowestPlace&) const = default;
};
/// The lowest place of any piece over all values of the moves: sampled, then found by golden section to
/// 1e-6 of the range. Turns about an upright axis stay as shown. A motion without moves: as they stand.
/// @param pieces  with every move at 0; at least one
/// @param after   where all of it is taken then, as by a shell that floats
[[nodiscard]] LowestPlace lowestOver(const Motion& motion, const std::vector<ConvexSolid>& pieces,
                                     const Pose& after = {});

} // namespace slab
