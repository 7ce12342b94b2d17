#pragma once
#include "core/geometry/polygon.h"

namespace slab {

/// Where a line of text fits best inside an area.
struct Spot {
    Vec2 centre = Vec2::Zero();
    double height = 0; ///< of the largest box width = aspect × height that surely fits, mm; 0 = nothing fits
    double turn = 0;   ///< 0 or π/2
    bool operator==(const Spot&) const = default;
};

/// Largest box of the given aspect (width / height) found inside `area`, level or standing on end; standing
/// only when that is at least 1.5 times as large. Grid search, then refinement: good to a few per cent,
/// always inside.
[[nodiscard]] Spot labelSpot(const Polygon& area, double aspect);

/// Direction of text along a line, radians, so that it is read from below or from the right.
[[nodiscard]] double readable(const Vec2& along);

} // namespace slab
