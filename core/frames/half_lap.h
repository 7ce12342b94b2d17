#pragma once
// Half-lap slots where two boards cross.
#include "core/frames/lap_words.h"

namespace slab::frames {

/// One piece of a board that hangs together before anything is slotted, in the choice's u, v.
struct Unit {
    std::vector<Polygon> regions; ///< what is left of it
    std::vector<Polygon> keep;    ///< not to be lightened: the full height of the board where it is slotted
};
struct Board {
    const FrameChoice* choice = nullptr;
    std::vector<Unit> units;
    int leftOut = 0; ///< units that go together with the others in no order, and have no regions
};

/// Have two frames, not slotted yet, a stretch in which they are to lap?
[[nodiscard]] bool lap(const Board& a, const Board& b);

/// Cuts both units of every pair that cross, and tells of the crossings. Which one is slotted from above is
/// chosen so that all go together, each straight onto those that stand (lap_sides.h).
/// @return units that go in in no order and are left out, each with what holds it
std::vector<Held> cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set);

} // namespace slab::frames
