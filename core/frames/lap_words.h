#pragma once
// What is said of boards on their way to their place.
#include "core/frames/lap_sides.h"

namespace slab::frames {

/// Pieces as they were when some of them turned out to hold each other.
struct Held {
    std::vector<Piece> pieces;
    Locked locked;
};

/// "frame-order": what holds each other, what is left out of it, and what to do.
/// @param names  of the pieces' boards, "" for those that have none: they are told by their frame, and by
///               their size and place where the frame has several pieces
void tellLocked(const std::vector<Piece>& pieces, const Locked& locked, const UnitStyle& units,
                std::vector<Finding>& findings, const std::vector<std::string>& names = {});

} // namespace slab::frames
