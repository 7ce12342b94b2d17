#pragma once
#include "core/board/board.h"

namespace slab {

/// A place where two sides of one outline cross or touch without being neighbours.
struct BoardCrossing {
    BoardView view = BoardView::side;
    int form = 0;
    Vec2 at = Vec2::Zero();    ///< mm in the elevation
    std::string first, second; ///< the sides: "hull/deck"
    bool operator==(const BoardCrossing&) const = default;
};
/// All of them, of outlines as they are drawn: a profile's from the side, a taper's base and top in plan, a
/// plate's in every view that does not show it on edge.
[[nodiscard]] std::vector<BoardCrossing> crossingsOf(const BoardScene& scene);

} // namespace slab
