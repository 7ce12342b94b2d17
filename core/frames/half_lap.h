#pragma once
// Half-lap slots where two boards cross.
#include "core/frames/frames.h"

namespace slab::frames {

struct Board {
    const FrameChoice* choice = nullptr;
    std::vector<Polygon> regions; ///< in the choice's u, v
};

/// Cuts both boards of every pair that cross, and tells of the crossings.
void cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set);

} // namespace slab::frames
