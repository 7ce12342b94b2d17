#pragma once
// What no-fit polygons are put together from.
#include "core/nesting/nofit.h"

namespace slab::nesting {

/// Appends a convex piece: its half-planes and box.
void addPiece(NoFit& out, const ConvexPiece& sum);

/// Appends the parts of a segment that no stretch covers; sorts the stretches.
void uncovered(std::vector<std::pair<double, double>>& stretches, const Segment& s,
               std::vector<Segment>& out);

/// Many pieces: united on the grid of slab::unite and cut anew into few.
/// @param group  so many sums in a row come from one piece: united first, which keeps the crossings few
[[nodiscard]] NoFit unitedNoFit(const std::vector<ConvexPiece>& sums, std::size_t group, double eps);

} // namespace slab::nesting
