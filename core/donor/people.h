#pragma once
// Who is aboard: the rider where the donor seats one.
#include "core/donor/rider.h"

namespace slab {

/// Adds everybody aboard to `set`: solids, persons and findings, in donor axes.
/// @param seat  the donor's
void seatPeople(const Project& project, const Scope& scope, const Seat& seat, DonorSet& set);

} // namespace slab
