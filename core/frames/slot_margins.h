#pragma once
// What is left of a board beside its slots.
#include "core/frames/frames.h"

namespace slab {

/// The narrower of the two strips that a slot leaves between itself and the board's edge or its next slot.
struct SlotHorn {
    double width = 0;       ///< mm, least, over the three quarters of the slot's depth next to its bottom
    double depth = 0;       ///< of the slot, mm
    Vec3 at = Vec3::Zero(); ///< where it is narrowest, beside the slot
};
/// @param board  one of the crossing's two
/// @param within  mm: what is wider is of no interest
/// @return nothing if both strips are wider, or if the slot's wall is the edge
[[nodiscard]] std::optional<SlotHorn> thinHorn(const Plate& board, const FrameCrossing& crossing,
                                               double within);

/// How far the board in a slot must move, along its own normal, so that the slot has `wanted` of this board
/// on both sides, as the other edges are; the shortest way, in whole millimetres.
/// @return signed, mm; nothing if this board is too narrow for that everywhere
[[nodiscard]] std::optional<double> moveForMargin(const Plate& board, const Plate& inSlot,
                                                  const FrameCrossing& crossing, double wanted);

/// "frame-horn": strips beside slots that are narrower than the least web of a hole as wide as the slot.
/// "frame-narrow": other places where a board is narrower than the least web of a bolt hole as wide as it is
/// thick; where a smaller web was chosen, narrower than that and than 10 mm or its thickness.
/// @source  leastWeb() of core/plates/margins.h
[[nodiscard]] std::vector<Finding> hornFindings(const FrameSet& set, const StockSet& stock,
                                                const UnitStyle& units);

} // namespace slab
