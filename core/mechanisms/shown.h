#pragma once
// One solid of a mechanism as it is shown.
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// The solid where a pose puts it.
[[nodiscard]] ConvexSolid placedBy(const Pose& pose, ConvexSolid solid);
/// A moving solid where the document shows it.
[[nodiscard]] ConvexSolid shownShape(const MechanismSet& set, const MovingSolid& solid);

} // namespace slab
