#pragma once
// Frames of bodies that move with a mechanism stay clear of what they move past.
#include "core/frames/frames.h"
#include <functional>

namespace slab {

/// What one frame stays clear of.
using KeptClear = std::function<const std::vector<FitSolid>&(const FrameChoice&)>;

/// makeFrames() with each frame's own solids.
[[nodiscard]] FrameSet makeFramesClearOf(const std::vector<FrameChoice>& choices, const Skin& skin,
                                         const std::vector<Plate>& plates, const KeptClear& solids,
                                         const UnitStyle& units = {});

} // namespace slab
