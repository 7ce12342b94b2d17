#pragma once
// How much wider or narrower than a board its slot may be.
#include "core/frames/half_lap.h"

namespace slab::frames {

/// Fits that go without a doubt, mm.
struct FitRange {
    double tightest = 0; ///< not more than 0
    double loosest = 0;
};
/// @param thickness  of the board that goes in, mm
/// @param soft       either board is foam or card
/// @source  common practice at the bench: wood is driven into slots at most a twentieth of its thickness
///          narrower, foam and card give by a tenth; glue bridges up to an eighth, and 1 mm in any case
[[nodiscard]] FitRange usualFit(double thickness, bool soft);

/// The choices, each with a fit that its slots can be cut with: 0 instead of one that would make a slot less
/// than half or more than twice as wide as a board that it laps with, which is told ("frame-fit").
/// @param boards  before anything is slotted, one for each choice
[[nodiscard]] std::vector<FrameChoice> withSoundFits(const std::vector<FrameChoice>& choices,
                                                     const std::vector<Board>& boards, const UnitStyle& units,
                                                     std::vector<Finding>& findings);

/// "frame-fit-tight", "frame-fit-loose": fits that are cut and yet doubtful, once for each frame.
void checkFits(const std::vector<FrameChoice>& choices, const UnitStyle& units, FrameSet& set);

} // namespace slab::frames
