#pragma once
// Outlines that a saw can follow.
#include "core/geometry/polygon.h"

namespace slab::frames {

inline constexpr double leastStrip = 3;  ///< mm: what is narrower does not hold together and is cut away
inline constexpr double leastEdge = 0.5; ///< mm: shorter edges are straightened; a pencil line is as wide

/// Without what is narrower than leastStrip; corners down to 30° stay as they are, sharper ones are cut
/// square. Nothing is added.
[[nodiscard]] std::vector<Polygon> withoutSlivers(const std::vector<Polygon>& regions);

/// The same regions without edges shorter than leastEdge: only taken away from, by strips at most that wide,
/// never added to, so that what stayed clear of the outline still does. The end of a notch narrower than that
/// stays, and a ring that would be nothing without its short edges goes.
[[nodiscard]] std::vector<Polygon> withoutShortEdges(const std::vector<Polygon>& regions);

} // namespace slab::frames
