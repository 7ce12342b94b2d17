#pragma once
// Solids that touch themselves along an edge or in a point.
#include "core/geometry/polyhedron.h"

namespace slab {

/// A closed piece with where its faces stood before.
struct ContactPiece {
    Polyhedron solid;
    std::vector<std::size_t> faces; ///< faces[i] of the piece was this face of the solid
};

/// Parts a solid along edges with more than two faces and at corners where several rounds of faces meet:
/// around such an edge each wedge of material gets an edge of its own. Nothing moves, so all volumes together
/// stay.
///
/// Every piece is closed with two faces to each edge; a solid that is so already comes back as one piece. Two
/// edges of one piece may still lie in the same place.
/// @error "not-closed" when an edge has a face without a counterpart
[[nodiscard]] Expected<std::vector<ContactPiece>> partedAtContacts(const Polyhedron& solid);

} // namespace slab
