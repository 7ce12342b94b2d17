#pragma once
// How near holes may come to an edge and to each other.
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// Least web between a hole and an edge or another hole, mm: 40 in foam; else three times the hole's least
/// width, 40 at most; never less than 10 or one thickness.
///
/// @param sheet  of the plate; null = unknown, taken as wood
/// @param width  least width of the hole, mm
/// @source  common practice at the bench: bolt holes three diameters from the edge in plywood, 40 mm in foam.
///          A hole wider than a bolt carries nothing by its edge: there the 40 mm only keep the web whole.
[[nodiscard]] double leastWeb(const Sheet* sheet, double thickness, double width);

/// Holes of plates nearer than that to the plate's outlines or to one another, on either face.
/// @param rounds  holes with the name of one of these were cut by a form
[[nodiscard]] std::vector<Finding> marginFindings(const PlateSet& plates, const StockSet& stock,
                                                  const std::vector<RoundPart>& rounds,
                                                  const UnitStyle& units);

/// Least width of a ring over all directions, mm (rotating calipers over its hull's sides).
/// @source  M. I. Shamos, "Computational Geometry", 1978: the least width is square to a side of the hull
[[nodiscard]] double leastWidth(const Ring& ring);

} // namespace slab
