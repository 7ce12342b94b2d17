#pragma once
#include "core/plates/cell.h"

namespace slab::plates {

/// Cells that hang together by common facet area, as separate groups, in order of their first cell.
[[nodiscard]] std::vector<Cells> connectedGroups(const PlaneTable& planes, const Cells& cells,
                                                 double tolerance);

} // namespace slab::plates
