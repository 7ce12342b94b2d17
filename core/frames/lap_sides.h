#pragma once
// Which of two boards that cross is slotted from above.
#include "core/frames/assembly.h"

namespace slab::frames {

/// Two pieces that are to go into each other.
struct LapChoice {
    std::size_t first = 0, second = 0; ///< pieces, in the order of the list
    Vec3 along = Vec3::UnitZ();        ///< in which they slide together
    double costFirstLower =
        0; ///< mm that must be cut through beside the lap if the first is slotted from above
    double costSecondLower = 0; ///< … if the second is
    bool firstLower = true;     ///< chosen: the first is slotted from above
    /// What is cut through if a piece is the lower one.
    [[nodiscard]] double cost(std::size_t lower) const {
        return lower == first ? costFirstLower : costSecondLower;
    }
};

/// Pieces that go together in no order, whichever of them are slotted from above.
struct Locked {
    std::size_t piece = 0;         ///< without which most of the others go together
    std::vector<std::size_t> with; ///< as few of the others as hold it
    bool ring = false; ///< their laps run one way, and each bars the next one's; else they run different ways
};

/// Chooses the lower piece of every lap so that all pieces go together one by one, each straight along all
/// its laps with those that stand. Of the ways to do so, the one that is free of what else stands, and cuts
/// as little through as can be seen piece by piece; then the first in the list is the lower one.
/// @return what holds together if there is no such order; `laps` are as they were then
[[nodiscard]] std::optional<Locked> chooseSides(const std::vector<Piece>& pieces,
                                                std::vector<LapChoice>& laps);

/// The same for pieces that are cut already.
/// @param locked  of assemblyOf(pieces), at least one
[[nodiscard]] Locked lockedIn(const std::vector<Piece>& pieces, const std::vector<std::size_t>& locked);

} // namespace slab::frames
