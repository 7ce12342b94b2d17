#pragma once
// Straight edges made curves and back again, as edits.
#include "ui/board/board_desk.h"

namespace slab::ui {

/// What an edge is: nothing = straight.
[[nodiscard]] std::optional<CurveKind> curveKind(const Project& project, const std::string& edge);
/// Pointer of the edge's curve; empty = straight.
[[nodiscard]] std::string curvePointer(const Project& project, const std::string& edge);
/// Makes an edge straight, or a curve of a kind that bulges outward to begin with: an arc by a seventh of its
/// length, an ellipse quarter where level and plumb lines through its ends meet on the outside, a spline
/// through one point.
/// @param edge  pointer of the edge's first point, "/forms/0/outline/3"
/// @error "no-edge" (no outline edge), or what the document's check says
[[nodiscard]] Expected<Edit> bendEdge(const Project& project, const Scope& scope, const std::string& edge,
                                      std::optional<CurveKind> kind);
/// Greatest distance between the curve and the flats that replace it, as drawn; 0 for a straight edge.
[[nodiscard]] double deviationOf(const BoardEdge& edge);

} // namespace slab::ui
