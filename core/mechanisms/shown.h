#pragma once
// One solid of a mechanism as it is shown.
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// What undoes a pose.
[[nodiscard]] Pose inverse(const Pose& pose);
/// The entry of `carried` that a plate moves with; null if none.
[[nodiscard]] const CarriedPlates* carriedWith(const MechanismSet& set, const std::string& plate);
/// The solid where a pose puts it.
[[nodiscard]] ConvexSolid placedBy(const Pose& pose, ConvexSolid solid);
/// Round forms where the document shows them: those that a mechanism carries move with it.
[[nodiscard]] std::vector<RoundPart> shownRounds(const MechanismSet& set, std::vector<RoundPart> rounds);
/// A moving solid where the document shows it.
[[nodiscard]] ConvexSolid shownShape(const MechanismSet& set, const MovingSolid& solid);

} // namespace slab
