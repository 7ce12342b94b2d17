#pragma once
// Drawings of route and ride: plain functions from values to a canvas. Bow to the right in plan and side.
#include "ui/ride/ride_ink.h"
#include "ui/ride/ride_rows.h"

namespace slab::ui {

/// What every drawing gets. Figures come from `e`, places are turned into the axes of `body.way`.
struct RideDraw {
    QPainter& painter;
    QRectF area;
    const Evaluation& e;
    const BodyShapes& body;
    const RideRows& rows;         ///< of the list beside it …
    int marked = -1;              ///< … the chosen one
    std::vector<RideSpot>& spots; ///< what can be pointed at, added while it is drawn
    [[nodiscard]] int rowOf(RideThing thing, int index) const;
    [[nodiscard]] bool isMarked(RideThing thing, int index = -1) const;
    /// As the punch list colours what it tells of it; `clear` where it tells nothing.
    [[nodiscard]] QColor colourOf(RideThing thing, int index, const QColor& clear) const;
    void spot(const QPointF& at, RideThing thing, int index, double reach = 12) const;
};

/// Plan, side and end of how it stands, which way it tips at what slope, and load against what is rated.
/// @param standing  whose loads stand at the wheels
void paintStands(const RideDraw& d, const trial::Balance& balance, int standing);
/// How steep it may lean in every direction.
void paintTipRose(const RideDraw& d, const trial::Balance& balance, const QRectF& area);
/// Carried against rated, as a bar with words.
void paintLoadBar(const RideDraw& d, const trial::Balance& balance, const QRectF& area);

/// Through a door, over a floor, round a corner: in plan, where it is tightest.
void paintPassage(const RideDraw& d, const trial::RouteResult& result);
/// Clear sides of what is driven through, in the axes of the way, mm.
struct Doorposts {
    double port, starboard; ///< y
    double front, back;     ///< x of the wall's faces
};
/// Nothing where it has no two sides, or stands in it.
[[nodiscard]] std::optional<Doorposts> doorpostsOf(const RideDraw& d, const trial::RouteResult& result);
/// What is least above: under the lintel, seen from behind.
void paintHeadroom(const RideDraw& d, const trial::RouteResult& result);
/// Turning on the spot or as tight as it goes; `wanted`: the circle that there is, mm, 0 = none.
void paintTurning(const RideDraw& d, const trial::Turning& turning, double wanted);
/// Driven along the ground. @param pose  index in the result's poses
void paintGround(const RideDraw& d, const trial::RouteResult& result, int pose);

/// What is hidden from the eye around the body, as a map, and the eye from the side.
void paintSight(const RideDraw& d, const trial::View& view);
/// A way out against whoever must pass it, and where ways out and gaps lie. @param way  −1 = none
void paintLeaving(const RideDraw& d, int way);

} // namespace slab::ui
