#pragma once
// A donor with everybody aboard, moved as one.
#include "core/donor/donor.h"

namespace slab {

/// Carries everything along: solids, chassis, people, poses.
void shift(DonorSet& set, const Vec3& by);
/// Turns everything about the origin of the donor and puts that to `place`, out of donor axes.
/// @param turn  about the upright
void put(DonorSet& set, const Mat3& turn, const Vec3& place);

} // namespace slab
