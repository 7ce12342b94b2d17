#pragma once
#include "core/board/board.h"

namespace slab::detail {

/// Silhouettes of what mechanisms are made of, as shown: kind "mechanism" for solids (drums, tubes, wheels,
/// belts), the pieces of one name as one region; kind "mechanism plate" for their plates.
void addMechanisms(BoardElevation& out, const Evaluation& evaluation);

} // namespace slab::detail
