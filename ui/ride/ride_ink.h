#pragma once
// What drawings of the ride are made of: dimensions, hatches, wheels, marks. All sizes in pixels unless told.
#include "core/trial/trial.h"
#include "ui/paint/paper_view.h"
#include "ui/ride/body_shapes.h"
#include <QColor>
#include <QString>
#include <functional>
#include <vector>

class QPainter;

namespace slab::ui {

/// A place of a drawing that stands for a row of the list beside it.
struct RideSpot {
    QPointF at;
    double reach = 12;
    QString words;
    int row = -1; ///< index in the rows
};

/// How a check came out: filled circle, triangle, octagon, empty circle; and its colour.
void paintOutcome(QPainter& painter, const QRectF& area, trial::Outcome outcome);
[[nodiscard]] QColor outcomeColour(trial::Outcome outcome);
[[nodiscard]] QString outcomeWord(trial::Outcome outcome);

enum class Anchor { centre, left, right };
/// One line of words beside `at`, on a bit of the card so that lines do not cross it; moved aside where an
/// edge would cut it. @return where it stands
QRectF inkWords(QPainter& painter, const QPointF& at, const QString& text, const QColor& colour,
                Anchor anchor = Anchor::centre, bool bold = false, int px = 12);
/// A line with arrow heads at both ends and its words in the middle; short ones have them outside.
void inkDimension(QPainter& painter, const QPointF& a, const QPointF& b, const QString& text,
                  const QColor& colour);
/// A head at `to`.
void inkArrow(QPainter& painter, const QPointF& from, const QPointF& to, const QColor& colour, double width);
/// Quartered circle, as drawings mark a centre of mass.
void inkCentre(QPainter& painter, const QPointF& at, double radius, const QColor& colour);
/// Ground under a line: the line and short strokes below it.
void inkGround(QPainter& painter, const QPolygonF& line, const QColor& colour);
/// A region in slanted lines.
void inkHatch(QPainter& painter, const QPainterPath& region, const QColor& colour, double gap = 7);

struct BodyInk {
    bool shell = true, donor = true, rider = true;
    bool faint = false;
};
/// The shell as an elevation, donor and rider in broken lines through it.
/// @param place  of a point in the drawing, mm, on the screen
void inkBody(QPainter& painter, const SeenBody& body, const std::function<QPointF(const Vec2&)>& place,
             const BodyInk& ink = {});

} // namespace slab::ui
