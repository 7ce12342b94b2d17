#pragma once
// Half-lap slots where two boards cross.
#include "core/frames/frames.h"

namespace slab::frames {

/// One piece of a board that hangs together before anything is slotted, in the choice's u, v.
struct Unit {
    std::vector<Polygon> regions; ///< what is left of it
    std::vector<Polygon> keep;    ///< not to be lightened: the full height of the board where it is slotted
};
struct Board {
    const FrameChoice* choice = nullptr;
    std::vector<Unit> units;
};

/// Cuts both boards of every pair that cross, and tells of the crossings. The boards are put together in the
/// order of the list, later ones from above; where that cannot be done, another order is looked for. A board
/// that goes in in none is left out, with a finding: it has no units then, and no place in the order.
void cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set);

/// Do two boards cross steeply enough for a half lap? From 10° on.
[[nodiscard]] bool lapHolds(const FrameChoice& a, const FrameChoice& b);

/// A lap between two units, for the order in which they are put together.
struct LapPair {
    std::pair<std::size_t, std::size_t> lower, upper; ///< board, unit: slotted from above, from below
    Vec3 along = Vec3::UnitZ();
};
/// @return the first board that has to slide onto two others in different directions, or that waits for one
///         which waits for it; nothing if all go together
[[nodiscard]] std::optional<std::size_t> stuckBoard(const std::vector<LapPair>& laps);
/// Boards in an order in which they go together; those that are stuck last.
[[nodiscard]] std::vector<std::size_t> buildOrder(const std::vector<LapPair>& laps, std::size_t boards);

} // namespace slab::frames
