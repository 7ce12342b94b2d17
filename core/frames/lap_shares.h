#pragma once
// Three or more boards that cross along one line.
#include "core/frames/lap_sides.h"

namespace slab::frames {

/// Stretch of a line, by distance along it from where it is nearest to the origin, mm.
struct Stretch {
    double low = 0, high = 0;
};

/// What the two of one lap keep of a stretch that several boards share, each an equal part, one over another.
struct LapShare {
    std::vector<std::size_t> pieces; ///< all of them, the lowest first
    Stretch common;                  ///< that all of them have
    double lowerTop = 0,
           upperBottom = 0; ///< end of what the lower one of the lap keeps, begin of the upper one's
};

/// Which laps are parts of one, as all their boards would stand in one another there: with n boards each
/// keeps an n-th of what all have, in the order in which they go in.
/// @param laps       their lower pieces chosen
/// @param stretches  of each lap, that both pieces have before anything is cut
/// @return for each lap; nothing for one that two boards have to themselves
[[nodiscard]] std::vector<std::optional<LapShare>> sharedLaps(const std::vector<Piece>& pieces,
                                                              const std::vector<LapChoice>& laps,
                                                              const std::vector<Stretch>& stretches);

} // namespace slab::frames
