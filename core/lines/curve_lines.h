#pragma once
// Curved edges as fine lines, for drawing and picking. Private to this room and the drawing board.
#include "core/lines/handles.h"

namespace slab::detail {

/// A curved edge in its form's plane, from the outline's point to the next.
struct CurvedEdge {
    int edge = -1;                   ///< of the outline
    int curve = -1;                  ///< in the form's list
    std::vector<Vec2> line;          ///< ends included; a spline's points are among them
    std::vector<Vec2> facets;        ///< corners of the flats that replace it; empty if they cannot be placed
    Vec2 handle = Vec2::Zero();      ///< arc: its middle; ellipse: where the tangents meet
    Vec2 handleAlong = Vec2::Zero(); ///< arc: how the handle goes with the bulge
    std::vector<Vec2> through;       ///< spline: its points, in the curve's own order
};
/// Curves of one list of a form whose formulas have values. A taper's top takes those of its base in
/// proportion, without handles.
[[nodiscard]] std::vector<CurvedEdge> curvedEdges(const Form& form, const std::string& list,
                                                  const Scope& scope);

} // namespace slab::detail
