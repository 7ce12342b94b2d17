#pragma once
// What a turntable is to carry and cannot, or what two are to carry.
#include "core/mechanisms/mechanisms.h"

namespace slab::mechanisms {

/// Entries of `carries` that name the table's own rings or deck, parts of another mechanism that does not
/// turn with it, the deck of another table, or what another table carries already. Each is a finding; what
/// moves with what is left as it is.
void checkCarries(const MechanismInput& in, MechanismSet& set);

} // namespace slab::mechanisms
