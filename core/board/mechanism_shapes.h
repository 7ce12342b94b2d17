#pragma once
#include "core/board/board.h"

namespace slab::detail {

/// Silhouettes of what mechanisms are made of, as shown: kind "mechanism" for solids (drums, tubes, wheels,
/// belts), the pieces of one name as one region; kind "mechanism plate" for their plates. Each has its
/// mechanism's entry in the document. Marks and grips stand where the document has them.
void addMechanisms(BoardElevation& out, const Project& project, const Scope& scope,
                   const Evaluation& evaluation);

} // namespace slab::detail
