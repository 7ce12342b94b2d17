#pragma once
// Signs and handles of mechanisms on the board.
#include "ui/board/board_paint.h"
#include <QColor>
#include <functional>

namespace slab::ui {

/// One sign. @param on  place in the view to px
void paintMark(QPainter& painter, const BoardMark& mark, const std::function<QPointF(const Vec2&)>& on,
               const QColor& colour, double width);
/// The signs of all mechanisms, those of the chosen one in its colour.
void paintMarks(QPainter& painter, const BoardInk& ink, const BoardElevation& e);
/// Handles of the chosen one.
void paintGripsOf(QPainter& painter, const BoardInk& ink, const BoardElevation& e);

} // namespace slab::ui
