#pragma once
// What is said of boards on their way to their place.
#include "core/frames/lap_sides.h"

namespace slab::frames {

/// "frame-order": what holds each other, what is left out of it, and what to do.
/// @param names  of the pieces, "" for those that have none yet: they are told by their frame, and by their
///               size where the frame has several
void tellLocked(const std::vector<Piece>& pieces, const Locked& locked, const UnitStyle& units,
                std::vector<Finding>& findings, const std::vector<std::string>& names = {});

} // namespace slab::frames
