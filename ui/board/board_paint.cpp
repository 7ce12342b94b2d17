#include "ui/board/board_paint.h"
#include "core/board/mechanism_moves.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_mechanisms.h"
#include "ui/paint/page_painter.h"
#include "ui/session/follow.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

QPolygonF lineOf(const BoardInk& ink, BoardView view, const std::vector<Vec2>& points) {
    QPolygonF line;
    for (const Vec2& p : points) line << ink.on(view, p);
    return line;
}

QColor shapeColour(const std::string& kind) {
    const Palette& c = Theme::colours();
    return kind == "donor"     ? c.donor
           : kind == "rider"   ? c.tight
           : kind == "frame"   ? c.fits
           : kind == "opening" ? c.hits
                               : c.quiet;
}

/// Donor and rider lie under everything, pale; openings and frames are lines only.
void paintShapes(QPainter& painter, const BoardInk& ink, const BoardElevation& e, bool people) {
    const Palette& c = Theme::colours();
    const std::string part = ink.desk.chosenPart(), own = mechanismIn(ink.desk.project(), part);
    for (const BoardShape& shape : e.shapes) {
        const QColor colour = shapeColour(shape.kind);
        const bool solid = shape.kind == "donor" || shape.kind == "rider";
        if (solid != people) continue;
        QPainterPath path;
        path.setFillRule(Qt::OddEvenFill);
        for (const Ring& ring : shape.rings) {
            path.addPolygon(lineOf(ink, e.view, ring));
            path.closeSubpath();
        }
        painter.setBrush(solid && !ink.faint && !ink.traced
                             ? QBrush(Theme::mix(colour, c.card, Theme::dark() ? 0.22 : 0.14))
                             : QBrush(Qt::NoBrush));
        const bool moves = shape.kind == "mechanism" || shape.kind == "mechanism plate";
        QPen pen(Theme::mix(colour, c.card, solid ? 0.4 : 0.75), 1);
        if (!solid && !moves) pen.setStyle(Qt::DashLine);
        const QString name = QString::fromStdString(shape.name);
        const bool named =
            name == ink.desk.session()->selection().solid || name == ink.desk.session()->selection().plate;
        if (moves && !own.empty() && shape.pointer == own) pen = QPen(c.chosen, 1.4);
        if (moves && named) pen = QPen(c.chosen, 2);
        if (!moves && !shape.pointer.empty() && shape.pointer == part) pen = QPen(c.chosen, 2.4);
        painter.setPen(pen);
        painter.drawPath(path);
    }
}

/// The ground, and the middle of what is symmetric: dash-dot, as on paper.
void paintAxes(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const Box2& box = ink.desk.sheet().area[static_cast<std::size_t>(e.view)];
    const QRectF area = ink.view.toScreen(box).adjusted(-18, -18, 18, 18);
    const QPointF zero = ink.on(e.view, Vec2::Zero());
    const QPen middle(Theme::mix(c.quiet, c.card, 0.75), 1, Qt::DashDotLine);
    const double x = ink.crisp(zero.x()), y = ink.crisp(zero.y());
    painter.setPen(e.view == BoardView::plan ? middle : QPen(c.quiet, 1.4));
    painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y));
    painter.setPen(e.view == BoardView::front ? middle
                                              : QPen(Theme::mix(c.quiet, c.card, 0.35), 1, Qt::DotLine));
    painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()));
}

QFont titleFont() {
    return Theme::words(12, true);
}

QString titleWords(const BoardInk& ink, BoardView view) {
    static const char* const titles[] = {"Side", "Front, seen from ahead", "Plan, from above"};
    const Box2& box = ink.desk.sheet().area[static_cast<std::size_t>(view)];
    const QRectF area = ink.view.toScreen(box);
    return elided(titles[static_cast<int>(view)], titleFont(), std::max(area.width() + 60, 170.0));
}

/// In sight as long as its elevation is: off the rulers, which lie over the paper's edges.
QPointF offTheRulers(const BoardInk& ink, const QRectF& area, QPointF at, double half) {
    constexpr double clear = 5; // px
    const double high = QFontMetricsF(titleFont()).height() / 2;
    const double left = ink.paper.left() + half + clear, top = ink.paper.top() + high + clear;
    if (at.x() < left && area.right() > left) at.setX(left);
    if (at.y() < top && area.bottom() > top + high) at.setY(top);
    return at;
}

QPointF titleSpot(const BoardInk& ink, BoardView view) {
    const Box2& box = ink.desk.sheet().area[static_cast<std::size_t>(view)];
    const QRectF area = ink.view.toScreen(box);
    const double half = QFontMetricsF(titleFont()).horizontalAdvance(titleWords(ink, view)) / 2;
    // On a small sheet the plan's title would stand on the ground of the side: then it stands beside the
    // plan.
    constexpr double room = 46; // px
    const QRectF side = ink.view.toScreen(ink.desk.sheet().area[0]);
    const double beside = area.left() - 26 - half;
    if (view == BoardView::plan && area.top() - side.bottom() < room && beside - half > ink.paper.left())
        return offTheRulers(ink, area, {beside, area.top() + 8}, half);
    return offTheRulers(ink, area, {area.left() + half, area.top() - 24}, half);
}

void paintTitle(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    drawText(painter, titleSpot(ink, e.view), titleWords(ink, e.view), titleFont(), Theme::colours().quiet, 0,
             Theme::colours().card);
}

void paintSkin(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const std::string plate = ink.desk.session()->selection().plate.toStdString();
    const QPen thin(Theme::mix(c.ink, c.card, 0.38), 1), chosen(c.chosen, 2);
    for (const BoardLine& line : e.skin) {
        const bool on = !plate.empty() && (line.left == plate || line.right == plate);
        painter.setPen(on ? chosen : thin);
        painter.drawLine(ink.on(e.view, line.from), ink.on(e.view, line.to));
    }
}

/// Where a curve was replaced by flats, both are drawn: the flats as the edge, the curve thin.
void paintEdges(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const int form = ink.desk.chosenForm();
    painter.setBrush(Qt::NoBrush);
    for (const BoardEdge& edge : e.edges) {
        const bool own = edge.form == form && !edge.mirrored;
        const bool chosen = own && ink.desk.choice().view == e.view && !edge.pointer.empty() &&
                            ink.desk.isEdgeChosen(edge.pointer);
        const double width = chosen ? 3 : edge.pointer.empty() ? 1 : own ? 2 : 1.5;
        const QColor colour =
            chosen || own ? c.chosen : Theme::mix(c.ink, c.card, edge.mirrored ? 0.45 : 0.9);
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolyline(lineOf(ink, e.view, edge.facets.empty() ? edge.line : edge.facets));
        if (edge.facets.empty()) continue;
        painter.setPen(QPen(Theme::mix(colour, c.card, 0.6), 1, Qt::DashLine));
        painter.drawPolyline(lineOf(ink, e.view, edge.line));
    }
}

void paintPoint(QPainter& painter, const BoardInk& ink, const BoardPoint& point, BoardView view, bool own) {
    const Palette& c = Theme::colours();
    const bool chosen = ink.desk.choice().view == view && ink.desk.isChosen(point.ref) && !point.mirrored;
    const QPointF at = ink.on(view, point.at);
    // On a small sheet the corners of other forms would hide what they are corners of.
    const double r = chosen ? 5 : own ? 4 : std::clamp(ink.view.scale * 40, 1.4, 2.6);
    painter.setPen(QPen(own || chosen ? c.chosen : Theme::mix(c.ink, c.card, 0.75), 1.2));
    painter.setBrush(chosen ? c.chosen : c.card);
    switch (point.ref.handle) {
    case Handle::corner:
        painter.drawRect(QRectF(at.x() - r, at.y() - r, 2 * r, 2 * r));
        break;
    case Handle::place: // a cross in a ring: the whole form
        painter.drawEllipse(at, r + 2, r + 2);
        if (chosen) painter.setPen(QPen(c.card, 1.2));
        painter.drawLine(QPointF(at.x() - r, at.y()), QPointF(at.x() + r, at.y()));
        painter.drawLine(QPointF(at.x(), at.y() - r), QPointF(at.x(), at.y() + r));
        break;
    case Handle::curve:
        painter.drawEllipse(at, r, r);
        break;
    default: // sizes: a diamond
        painter.drawPolygon(QPolygonF({{at.x(), at.y() - r - 1},
                                       {at.x() + r + 1, at.y()},
                                       {at.x(), at.y() + r + 1},
                                       {at.x() - r - 1, at.y()}}));
    }
}

/// Corners of every form; handles for sizes and places only of the form that is chosen.
void paintPoints(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const int form = ink.desk.chosenForm();
    for (const bool own : {false, true}) {
        for (const BoardPoint& point : e.points) {
            if ((point.form == form) != own || point.mirrored) continue;
            if (!own && (point.ref.handle != Handle::corner || point.knobs.empty())) continue;
            paintPoint(painter, ink, point, e.view, own);
        }
    }
}

/// Where the middle of a level word of that width lies clear of an edge: above it, or to its right where it
/// is steep.
QPointF besideEdge(const QPointF& from, const QPointF& to, double width) {
    const QPointF along = to - from;
    const double length = std::hypot(along.x(), along.y());
    if (length < 1e-9) return from + QPointF(0, -14);
    QPointF normal(along.y() / length, -along.x() / length);
    const bool steep = std::abs(along.y()) > std::abs(along.x());
    if (steep ? normal.x() < 0 : normal.y() > 0) normal = -normal;
    constexpr double halfHeight = 7, clear = 7;
    return (from + to) / 2 +
           normal * (std::abs(normal.x()) * width / 2 + std::abs(normal.y()) * halfHeight + clear);
}

/// Names of what is chosen; others would only crowd the sheet.
void paintNames(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    const Palette& c = Theme::colours();
    const QFont font = Theme::words(11);
    if (ink.desk.choice().view != e.view) return;
    for (const BoardPoint& point : e.points) {
        if (point.mirrored || !ink.desk.isChosen(point.ref) || ink.desk.choice().points.size() > 12) continue;
        const QString name = elided(QString::fromStdString(point.name).section('/', 1), font, 150);
        if (name.isEmpty()) continue;
        const double half = QFontMetricsF(font).horizontalAdvance(name) / 2;
        drawText(painter, ink.on(e.view, point.at) + QPointF(half + 10, -12), name, font, c.chosen, 0,
                 c.card);
    }
    for (const BoardEdge& edge : e.edges) {
        if (edge.mirrored || edge.pointer.empty() || !ink.desk.isEdgeChosen(edge.pointer) ||
            edge.line.empty())
            continue;
        const std::size_t piece = (edge.line.size() - 1) / 2;
        const QPointF from = ink.on(e.view, edge.line[piece]),
                      to = ink.on(e.view, edge.line[std::min(piece + 1, edge.line.size() - 1)]);
        const QString name = elided(QString::fromStdString(edge.name).section('/', 1), font, 150);
        drawText(painter, besideEdge(from, to, QFontMetricsF(font).horizontalAdvance(name)), name, font,
                 c.chosen, 0, c.card);
    }
}

void paintFeatures(QPainter& painter, const BoardInk& ink, const BoardElevation& e) {
    painter.setPen(QPen(Theme::colours().tight, 1.5));
    for (const BoardFeature& f : e.features) {
        const QPointF at = ink.on(e.view, f.at);
        painter.drawLine(at + QPointF(-5, -5), at + QPointF(5, 5));
        painter.drawLine(at + QPointF(-5, 5), at + QPointF(5, -5));
    }
}

void arrow(QPainter& painter, const QPointF& tip, const QPointF& dir) {
    const QPointF side(-dir.y(), dir.x());
    painter.drawPolygon(QPolygonF({tip, tip - dir * 9 + side * 3, tip - dir * 9 - side * 3}));
}

} // namespace

void paintDimension(QPainter& painter, const BoardInk& ink, BoardView view, const BoardDimension& line,
                    bool chosen) {
    const Palette& c = Theme::colours();
    const QColor colour = chosen ? c.chosen : line.drives.empty() ? c.quiet : c.ink;
    const QPointF a = ink.on(view, line.lineFrom), b = ink.on(view, line.lineTo);
    painter.setPen(QPen(Theme::mix(colour, c.card, 0.55), 1));
    painter.drawLine(ink.on(view, line.from), a);
    painter.drawLine(ink.on(view, line.to), b);
    painter.setPen(QPen(colour, chosen ? 1.8 : 1.1));
    painter.drawLine(a, b);
    const double length = QLineF(a, b).length();
    if (length < 1e-6) return;
    const QPointF dir = (b - a) / length;
    painter.setBrush(colour);
    painter.setPen(Qt::NoPen);
    if (length > 24) arrow(painter, b, dir), arrow(painter, a, -dir);
    double turn = std::atan2(-dir.y(), dir.x()) * 180 / M_PI;
    if (turn > 90.01) turn -= 180;
    if (turn <= -89.99) turn += 180;
    QString figure = QString::fromStdString(line.figure);
    // What it drives may be a part of the distance only: the figure is the distance's.
    if (!line.drives.empty())
        figure = line.whole ? QString::fromStdString(line.drives) + " = " + figure
                            : figure + " · " + QString::fromStdString(line.drives);
    const QFont font = Theme::figures(12, chosen);
    drawText(painter, (a + b) / 2, elided(figure, font, 240), font, chosen ? c.chosen : c.ink, turn, c.card);
}

namespace {

/// A ring round each place where an outline crosses itself.
void paintCrossings(QPainter& painter, const BoardInk& ink, BoardView view) {
    constexpr double radius = 9; // px
    const Palette& c = Theme::colours();
    for (const BoardCrossing& one : ink.desk.crossings()) {
        if (one.view != view) continue;
        const QPointF at = ink.on(view, one.at);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(c.hits, 2));
        painter.drawEllipse(at, radius, radius);
        drawText(painter, at - QPointF(0, radius + 9), "crosses itself", Theme::words(11, true), c.hits, 0,
                 c.card);
    }
}

} // namespace

std::vector<QRectF> titleBoxes(const BoardInk& ink) {
    std::vector<QRectF> boxes;
    const QFontMetricsF metrics(titleFont());
    for (const BoardView view : boardViews) {
        QRectF box(0, 0, metrics.horizontalAdvance(titleWords(ink, view)) + 6, metrics.height());
        box.moveCenter(titleSpot(ink, view));
        boxes.push_back(box);
    }
    return boxes;
}

void paintScene(QPainter& painter, const BoardInk& ink) {
    if (!ink.desk.hasAnything() && !ink.desk.session()->evaluation().donor) return;
    constexpr double pale = 0.2;
    for (const BoardElevation& e : ink.desk.scene().views) {
        paintAxes(painter, ink, e);
        painter.setOpacity(ink.faint ? pale : 1);
        if (ink.traced) painter.setOpacity(pale);
        paintShapes(painter, ink, e, true);
        painter.setOpacity(ink.faint ? pale : 1);
        paintShapes(painter, ink, e, false);
        paintSkin(painter, ink, e);
        paintEdges(painter, ink, e);
        paintMarks(painter, ink, e);
        for (const BoardDimension& line : e.dimensions)
            paintDimension(painter, ink, e.view, line, line.index == ink.desk.choice().dimension);
        paintPoints(painter, ink, e);
        paintNames(painter, ink, e);
        paintGripsOf(painter, ink, e);
        painter.setOpacity(1);
        paintFeatures(painter, ink, e);
        paintCrossings(painter, ink, e.view);
        paintTitle(painter, ink, e);
    }
}

void paintSnap(QPainter& painter, const BoardInk& ink, BoardView view, const Snap& snap) {
    const Palette& c = Theme::colours();
    painter.setPen(QPen(c.fits, 1, Qt::DashLine));
    for (const Guide& guide : snap.guides)
        painter.drawLine(ink.on(guide.view, guide.from), ink.on(guide.view, guide.to));
    if (snap.words.empty() || snap.words == "grid") return;
    painter.setPen(QPen(c.fits, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(ink.on(view, snap.at), 7, 7);
}

void paintProjection(QPainter& painter, const BoardInk& ink, const BoardPointer& pointer, const Snap& snap) {
    const Palette& c = Theme::colours();
    const BoardSheet& sheet = ink.desk.sheet();
    painter.setPen(QPen(Theme::mix(c.chosen, c.card, 0.5), 1, Qt::DotLine));
    const BoardPoint* chosen = nullptr;
    if (ink.desk.choice().points.size() == 1)
        chosen = find(ink.desk.scene(), ink.desk.choice().view, ink.desk.choice().points.front());
    if (chosen) {
        for (const ProjectionLine& line : projectionLines(sheet, chosen->place))
            painter.drawLine(ink.view.toScreen(line.from), ink.view.toScreen(line.to));
        // The 45° line that carries widths round the corner.
        const Box2& front = sheet.area[1];
        const double from = front.min.x() - sheet.corner.x(), to = front.max.x() - sheet.corner.x();
        painter.setPen(QPen(Theme::mix(c.quiet, c.card, 0.5), 1));
        painter.drawLine(ink.view.toScreen(sheet.corner + Vec2(from, from)),
                         ink.view.toScreen(sheet.corner + Vec2(to, to)));
    }
    // Level and plumb through the pointer, as far as the neighbouring elevation.
    const Vec2 at = snap.words.empty() ? pointer.at : snap.at;
    const QPointF px = ink.on(pointer.view, at);
    painter.setPen(QPen(Theme::mix(c.quiet, c.card, 0.35), 1, Qt::DotLine));
    const QPointF fold = folds(ink);
    const bool left = px.x() < fold.x(), upper = px.y() < fold.y();
    painter.drawLine(QPointF(ink.paper.left(), px.y()),
                     QPointF(upper ? ink.paper.right() : std::min(fold.x(), ink.paper.right()), px.y()));
    painter.drawLine(QPointF(px.x(), ink.paper.top()),
                     QPointF(px.x(), left ? ink.paper.bottom() : std::min(fold.y(), ink.paper.bottom())));
}

} // namespace slab::ui
