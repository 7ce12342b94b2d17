#pragma once
// Boxes drawn on a picture in its elevation, mm, and the hold that a hand can take of them.
#include "core/board/board.h"
#include "core/picture/crop.h"
#include <QPolygonF>
#include <Qt>

class QPainter;

namespace slab::ui {

class BoardCanvas;

/// What of a box is held: one side, a corner (two sides), or all of it.
struct BoxGrip {
    int across = 0; ///< -1 the left side, 1 the right one
    int down = 0;   ///< -1 the upper side, 1 the lower one
    bool whole = false;
    [[nodiscard]] bool any() const { return across != 0 || down != 0 || whole; }
    [[nodiscard]] bool side() const { return across != 0 || down != 0; }
    bool operator==(const BoxGrip&) const = default;
};

/// The least that a box may be made along each side, px on the screen.
inline constexpr double leastBox = 4;

/// The box round what is shown of a picture; nothing while that is unknown.
[[nodiscard]] std::optional<Box2> frameOf(const PlacedPicture& picture);
/// What is held at a place. @param reach  mm
[[nodiscard]] BoxGrip gripAt(const Box2& box, const Vec2& at, double reach);
/// The box when what is held has gone by so much; it stays on the picture, and is moved without changing its
/// size.
/// @param least  that it may be made along each side, mm
[[nodiscard]] Box2 pulled(const PlacedPicture& picture, const Box2& box, const BoxGrip& grip, const Vec2& by,
                          double least);
/// Two opposite corners, kept on the picture.
[[nodiscard]] Box2 boxBetween(const PlacedPicture& picture, const Vec2& a, const Vec2& b);
/// The pointer's shape over it.
[[nodiscard]] Qt::CursorShape cursorFor(const BoxGrip& grip);
/// Its corners on the screen, from the upper left one on round it.
[[nodiscard]] QPolygonF boxOnScreen(BoardView view, const Box2& box, const BoardCanvas& canvas);
/// Small squares on corners and middles of sides.
void paintGrips(QPainter& painter, const QPolygonF& corners);

} // namespace slab::ui
