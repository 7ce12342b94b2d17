#pragma once
// A rectangle of a picture's pixels as it lies in the picture's elevation, and what a hand can take of it.
#include "core/picture/place.h"
#include <QPolygonF>
#include <Qt>

class QPainter;

namespace slab::ui {

class BoardCanvas;

/// What of a rectangle is held: one side, a corner (two sides), or all of it.
struct BoxGrip {
    int across = 0; ///< -1 the left side, 1 the right one
    int down = 0;   ///< -1 the upper side, 1 the lower one
    bool whole = false;
    [[nodiscard]] bool any() const { return across != 0 || down != 0 || whole; }
    [[nodiscard]] bool side() const { return across != 0 || down != 0; }
    bool operator==(const BoxGrip&) const = default;
};

/// The least that a rectangle may be made, px along each side.
inline constexpr double leastBox = 4;

/// Corners in the elevation, mm, from the upper left one on round it; empty if one lies at or beyond the
/// horizon of a photo.
[[nodiscard]] Ring boxCorners(const PlacedPicture& picture, const Box2& pixels);
/// What is held at a place of the elevation. @param reach  mm
[[nodiscard]] BoxGrip gripAt(const PlacedPicture& picture, const Box2& pixels, const Vec2& at, double reach);
/// The rectangle when what is held has gone from one pixel to another; it stays on the picture, and is moved
/// without changing its size.
[[nodiscard]] Box2 pulled(const PlacedPicture& picture, const Box2& pixels, const BoxGrip& grip,
                          const Vec2& from, const Vec2& to);
/// Two opposite corners, kept on the picture.
[[nodiscard]] Box2 boxBetween(const PlacedPicture& picture, const Vec2& a, const Vec2& b);
/// The pointer's shape over it, by how its sides run on the sheet.
[[nodiscard]] Qt::CursorShape cursorFor(const PlacedPicture& picture, const Box2& pixels,
                                        const BoxGrip& grip);
/// On the screen.
[[nodiscard]] QPolygonF boxOnScreen(const PlacedPicture& picture, const Box2& pixels,
                                    const BoardCanvas& canvas);
/// Small squares on corners and middles of sides.
void paintGrips(QPainter& painter, const QPolygonF& corners);

} // namespace slab::ui
