#include "ui/board/board_mechanisms.h"
#include "core/board/mechanism_moves.h"
#include "ui/theme/theme.h"
#include <QPainter>

namespace slab::ui {

namespace {

using Kind = BoardMark::Kind;

/// A dash-dot line for axes, dashes for what is not there as a thing.
Qt::PenStyle styleOf(Kind kind) {
    return kind == Kind::axis                             ? Qt::DashDotLine
           : kind == Kind::range || kind == Kind::outline ? Qt::DashLine
                                                          : Qt::SolidLine;
}

/// Across the ends of a pin's way.
void paintTicks(QPainter& painter, const QPointF& from, const QPointF& to) {
    constexpr double half = 5; // px
    for (const QPointF& at : {from, to}) painter.drawLine(at - QPointF(half, 0), at + QPointF(half, 0));
}

/// A pivot is a ring with its middle, a hinge a ring between two leaves, a pin a full dot in a ring.
void paintSign(QPainter& painter, Kind kind, const QPointF& at, const QColor& colour) {
    const Palette& c = Theme::colours();
    constexpr double ring = 5, dot = 1.6, leaf = 12; // px
    if (kind == Kind::hinge) {
        painter.drawLine(at - QPointF(leaf, 0), at - QPointF(ring, 0));
        painter.drawLine(at + QPointF(ring, 0), at + QPointF(leaf, 0));
    }
    painter.setBrush(c.card);
    painter.drawEllipse(at, ring, ring);
    painter.setBrush(colour);
    painter.setPen(Qt::NoPen);
    painter.drawEllipse(at, kind == Kind::pin ? 2 * dot : dot, kind == Kind::pin ? 2 * dot : dot);
}

} // namespace

void paintMark(QPainter& painter, const BoardMark& mark, const std::function<QPointF(const Vec2&)>& on,
               const QColor& colour, double width) {
    painter.setPen(QPen(colour, width, styleOf(mark.kind), Qt::FlatCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    if (mark.line.size() == 1) return paintSign(painter, mark.kind, on(mark.line.front()), colour);
    QPolygonF line;
    for (const Vec2& p : mark.line) line << on(p);
    painter.drawPolyline(line);
    if (mark.kind == Kind::travel) paintTicks(painter, line.front(), line.back());
}

void paintMarks(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const std::string chosen = mechanismIn(ink.desk.project(), ink.desk.chosenPart());
    const auto on = [&](const Vec2& p) { return ink.on(e.view, p); };
    for (const BoardMark& mark : e.marks) {
        const bool own = !chosen.empty() && mark.pointer == chosen;
        const bool range = mark.kind == Kind::range;
        const QColor colour = own ? Theme::mix(c.chosen, c.card, range ? 0.6 : 1)
                                  : Theme::mix(c.quiet, c.card, range ? 0.4 : 0.8);
        if (own && range) {
            QPolygonF fan;
            for (const Vec2& p : mark.line) fan << on(p);
            painter.setPen(Qt::NoPen);
            QColor pale = c.chosen; // what lies under it is seen through it
            pale.setAlphaF(0.06F);
            painter.setBrush(pale);
            painter.drawPolygon(fan);
        }
        paintMark(painter, mark, on, colour, own && mark.line.size() == 1 ? 2 : 1);
    }
}

void paintGripsOf(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const std::string part = ink.desk.chosenPart();
    for (const BoardGrip& grip : e.grips) {
        if (!ink.desk.isGripShown(grip.ref)) continue;
        const QPointF at = ink.on(e.view, grip.at);
        const bool full = grip.ref.pointer == part && grip.kind == BoardGrip::Kind::place;
        constexpr double r = 5;
        painter.setPen(QPen(c.chosen, 1.4));
        painter.setBrush(full ? c.chosen : c.card);
        if (grip.kind == BoardGrip::Kind::size) {
            painter.drawPolygon(QPolygonF({at - QPointF(0, r + 1), at + QPointF(r + 1, 0),
                                           at + QPointF(0, r + 1), at - QPointF(r + 1, 0)}));
            continue;
        }
        if (grip.kind == BoardGrip::Kind::stop) {
            painter.drawEllipse(at, r, r);
            continue;
        }
        painter.drawEllipse(at, r + 1, r + 1); // a cross in a ring: the whole of it
        if (full) painter.setPen(QPen(c.card, 1.2));
        painter.drawLine(at - QPointF(r - 1, 0), at + QPointF(r - 1, 0));
        painter.drawLine(at - QPointF(0, r - 1), at + QPointF(0, r - 1));
    }
}

} // namespace slab::ui
