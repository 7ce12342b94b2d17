#pragma once
// Frames of bodies that move with a mechanism go along and stay clear of what they move past.
#include "core/frames/frames.h"
#include <functional>

namespace slab {

/// Index of the motion that a plate moves with; -1 = it stands.
using PlateCarrier = std::function<int(const std::string& plate)>;

/// How the document's mechanisms move frames.
struct FrameCarrying {
    PlateCarrier plate = [](const std::string&) { return -1; };
    /// What the document says of a frame's boards, whatever body they stand in.
    struct Named {
        std::vector<int> motions; ///< that some of them move with
        bool all = false;         ///< every one is named
    };
    std::function<Named(const FrameChoice&)> named = [](const FrameChoice&) { return Named{}; };
    /// What these boards stay clear of as they move with a motion, or stand (-1). Asked once for each.
    std::function<std::vector<FitSolid>(int motion, const std::vector<FrameChoice>& boards)> clear;
};

/// makeFrames() where bodies move: a board moves with the plates that line it, unless the document says what
/// it moves with; see FrameSet::carried.
[[nodiscard]] FrameSet makeFramesClearOf(const std::vector<FrameChoice>& choices, const Skin& skin,
                                         const PlateList& plates, const FrameCarrying& carrying,
                                         const UnitStyle& units = {});

} // namespace slab
