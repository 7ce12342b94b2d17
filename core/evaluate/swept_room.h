#pragma once
// The room that moving parts take over their whole range.
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// What boards must stay clear of: every moving solid, one that is swept over its whole range as the hulls of
/// neighbouring poses at most 5° or 50 mm apart, with so much more clearance as they bulge out between; else
/// as it stands with every move at 0. At most 400 hulls for one solid: its poses lie further apart then.
[[nodiscard]] std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms);

} // namespace slab
