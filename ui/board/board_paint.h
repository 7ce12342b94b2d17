#pragma once
// Paints the board: grid, rulers, elevations, what is chosen, guides.
#include "ui/board/board_tool.h"
#include <optional>

class QPainter;

namespace slab::ui {

/// What painting needs to know of the canvas.
struct BoardInk {
    const BoardDesk& desk;
    const PaperView& view;
    QRectF paper;        ///< inside the rulers, px
    double ratio = 1;    ///< device pixels to one px
    double grid = 0;     ///< mm
    bool faint = false;  ///< a picture is being marked: what lies over it must not hide it
    bool traced = false; ///< a picture is being drawn over: donor and rider must not hide it
    [[nodiscard]] QPointF on(BoardView in, const Vec2& at) const {
        return view.toScreen(desk.sheet().toSheet(in, at));
    }
    /// On the middle of a device pixel: hairlines stay hairlines.
    [[nodiscard]] double crisp(double px) const;
};

/// Distance of grid lines at a zoom, mm: at least 9 px.
[[nodiscard]] double gridStep(double pixelsPerMm, Unit unit);
/// The sheet is folded into four quarters: the columns share what runs to the right, the rows what runs up.
/// @return px of the vertical and the horizontal fold
[[nodiscard]] QPointF folds(const BoardInk& ink);
void paintGrid(QPainter& painter, const BoardInk& ink);
/// Rulers along the upper and left border, real size, each quarter of the sheet from its own zero.
void paintRulers(QPainter& painter, const BoardInk& ink, const std::optional<QPointF>& pointer);
void paintScene(QPainter& painter, const BoardInk& ink);
/// Where the views' titles stand, px.
[[nodiscard]] std::vector<QRectF> titleBoxes(const BoardInk& ink);
/// Thin lines that carry the place under the pointer, or the chosen point, into the other elevations.
void paintProjection(QPainter& painter, const BoardInk& ink, const BoardPointer& pointer, const Snap& snap);
void paintSnap(QPainter& painter, const BoardInk& ink, BoardView view, const Snap& snap);
/// A dimension line with its figure.
void paintDimension(QPainter& painter, const BoardInk& ink, BoardView view, const BoardDimension& line,
                    bool chosen);

} // namespace slab::ui
