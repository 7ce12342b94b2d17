#pragma once
#include "core/geometry/polygon.h"

namespace slab {

/// The first two edges of a ring that cross or touch without being neighbours; edge i runs from corner i to i
/// + 1.
[[nodiscard]] std::optional<std::pair<std::size_t, std::size_t>> firstCrossing(const Ring& ring);

} // namespace slab
