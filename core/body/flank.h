#pragma once
#include "core/body/outline.h"

namespace slab {

/// A profile's flank cut into flat pieces along break lines between outline corners.
struct FlankSplit {
    std::vector<std::vector<int>> pieces; ///< corner indices in the outline's order
    std::vector<double> half; ///< half-widths, moved by at most `tolerance` onto the pieces' planes
};

/// Fewest flat pieces; among these the fullest body (so that breaks are ridges where they can be), then the
/// most upright breaks.
///
/// The fullest surface over given points is their upper hull, so adding up the volume under the pieces
/// prefers it. Dynamic programming over the diagonals of a simple polygon, as for least-cost triangulations
/// (G. Klincsek, "Minimal triangulations of polygonal domains", 1980).
/// @param corners    counter-clockwise, simple, `half` set
/// @param tolerance  mm; corners this close to a piece's plane count as in it
[[nodiscard]] FlankSplit splitFlank(const Corners& corners, double tolerance);

} // namespace slab
