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

/// "frame-horn": strips beside slots that are narrower than the least web of a hole as wide as the slot.
/// Lightening holes do not count: their web is chosen.
/// @source  leastWeb() of core/plates/margins.h
[[nodiscard]] std::vector<Finding> hornFindings(const FrameSet& set, const StockSet& stock,
                                                const UnitStyle& units);

} // namespace slab
