#pragma once
// Frames and openings on the drawing board, as edits. Formulas are kept as moves.h keeps them.
#include "core/board/moves.h"

namespace slab {

/// The body axis that a new frame is square to, by the way it was drawn: a plumb stretch in the side view is
/// a bulkhead ("x"), a level one a shelf ("z"); in plan across or lengthwise ("x", "y"); from ahead
/// lengthwise or a shelf ("y", "z"). A stretch of nothing takes what is usual there: a bulkhead in the side
/// view, else lengthwise.
[[nodiscard]] std::string frameAxis(BoardView view, const Vec2& stretch);
/// A new frame at a place of a view, in the default sheet.
/// @param at    mm at build size, in the view
/// @param step  to which its station is rounded, see MoveOptions; 0 = exact
[[nodiscard]] Expected<Edit> addFrame(const Project& project, const Scope& scope, BoardView view,
                                      const std::string& axis, const Vec2& at, double step);

/// A frame ("/frames/0") or an opening ("/openings/2") moved as seen in a view: the frame's station, the
/// opening's place.
/// @param delta   mm at build size; what no field of it can do is passed over
/// @param plates  as evaluated; of an opening's own plate when it is measured on one; may be null for frames
/// @error "no-such-place"; "not-movable" (nothing moves it in this view); "broken-formula"
[[nodiscard]] Expected<Edit> movePart(const Project& project, const Scope& scope, BoardView view,
                                      const std::string& pointer, const Vec2& delta, const PlateSet* plates,
                                      const MoveOptions& options = {});
/// The way in which a frame can be moved in a view, of unit length; zero if in none.
[[nodiscard]] Vec2 frameWay(const Rib& rib, const Scope& scope, BoardView view);

} // namespace slab
