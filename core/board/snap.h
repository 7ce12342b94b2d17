#pragma once
// What a dragged point is drawn to.
#include "core/board/board.h"

namespace slab {

struct SnapOptions {
    std::vector<PointRef> moving; ///< not snapped to
    std::optional<Vec2> anchor; ///< other end of the edge, or where the drag began: level and plumb from here
    double off = 0;             ///< mm: the anchor is left that far from it, though within reach; 0 = not
    double grid = 0;            ///< mm at build size; 0 = no grid
    std::string carried; ///< marked features whose names begin so move along: not snapped to; "" = none
    bool points = true, features = true, axes = true, alignment = true, projection = true, edges = true;
};
/// A thin line that shows what was met: in the view, or in another one for projections.
struct Guide {
    BoardView view = BoardView::side;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    bool operator==(const Guide&) const = default;
};
struct Snap {
    Vec2 at = Vec2::Zero();
    bool exactRight = false, exactUp = false; ///< this coordinate is something's, not to be rounded
    std::string words; ///< "hull/stem head", "level with hull/deck", "on the ground", "grid"; empty = free
    std::vector<Guide> guides;
    bool operator==(const Snap&) const = default;
};
/// Priorities: points and marked features; where two lines of alignment cross; edges; one alignment (level or
/// plumb from the anchor, in line with points of this view, axes, projection from other views) and the grid
/// in the other direction; grid.
/// @param reach  mm at build size
[[nodiscard]] Snap snap(const BoardScene& scene, BoardView view, const Vec2& at, double reach,
                        const SnapOptions& options = {});

} // namespace slab
