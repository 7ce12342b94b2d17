#pragma once
#include "core/geometry/convex.h"
#include "core/geometry/polygon.h"
#include "core/lines/view.h"

namespace slab::detail {

/// Outline of a convex solid in an elevation, counter-clockwise; round parts as 32 points that lie on them.
[[nodiscard]] Ring silhouette(const ConvexSolid& solid, BoardView view);

} // namespace slab::detail
