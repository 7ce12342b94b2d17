#pragma once
// From convex cells to closed solids with merged planar faces.
#include "core/plates/cell.h"

namespace slab::plates {

/// One connected solid. Face i lies on the boundary of `halves[i]` (its outside is outside that half-space).
struct Piece {
    Polyhedron solid;
    std::vector<Half> halves;
    Cells cells;
    double volume = 0; ///< of the cells, mm³
};

/// Joins the cells of one plate: inner facets cancel, coplanar facets merge, vertices on straight edges go.
/// Separate solids come out as separate pieces, largest first.
[[nodiscard]] std::vector<Piece> assemble(const PlaneTable& planes, const Cells& cells);

} // namespace slab::plates
