#pragma once
// The room that moving parts take over their whole range.
#include "core/frames/frames.h"
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// What boards must stay clear of: every moving solid, one that is swept over its whole range as the hulls of
/// neighbouring poses at most 5° or 50 mm apart, with the bulge between these beside the clearance; else as
/// it stands with every move at 0. At most 400 hulls for one solid: its poses lie further apart then.
[[nodiscard]] std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms);
/// Of that what may come so near to one of these boards as it is to stay clear.
/// @param shell  inside of which they lie
[[nodiscard]] std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms,
                                              const std::vector<FrameChoice>& boards, const Skin& shell);
/// The same as boards see it that move along with a mechanism: what stands still moves past them.
/// @param carrier  that moves them, index in MechanismSet::motions
/// @param still    donor, rider and whatever else stands; what comes near is there, with its own clearance
[[nodiscard]] std::vector<FitSolid> sweptRoomSeenFrom(int carrier, const MechanismSet& mechanisms,
                                                      const std::vector<FitSolid>& still,
                                                      const std::vector<FrameChoice>& boards,
                                                      const Skin& shell);

} // namespace slab
