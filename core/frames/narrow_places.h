#pragma once
// Where a board is narrower than it should be.
#include "core/geometry/polygon.h"
#include <vector>

namespace slab::frames {

struct NarrowPlace {
    double width = 0;       ///< mm: least between two edges; of a strip with a free end, its greatest
    double length = 0;      ///< mm, along the strip
    Vec2 at = Vec2::Zero(); ///< where it is narrowest, in the middle
    bool freeEnd = false;   ///< it hangs on at one end only
    bool operator==(const NarrowPlace&) const = default;
};

/// Strips of a region, between any two of its edges, that are narrower than `least`, the narrowest first:
/// what a disc of that diameter, moved about within the region, does not reach. Corners are no strips, nor is
/// what tapers to a point, nor a free end less than one and a half times as long as wide.
/// @param least  mm; what is within 1.5 mm of it may count as that wide
[[nodiscard]] std::vector<NarrowPlace> narrowPlaces(const Polygon& region, double least);

} // namespace slab::frames
