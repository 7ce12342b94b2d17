// Grid and rulers of the board.
#include "ui/board/board_canvas.h"
#include "ui/board/board_paint.h"
#include "ui/board/rule_ticks.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double leastGrid = 9; // px

double originPx(const BoardInk& ink, BoardView view, bool across) {
    const QPointF at = ink.on(view, Vec2::Zero());
    return across ? at.x() : at.y();
}

/// Lines of one quarter. The finest fade in as they come apart.
void paintQuarter(QPainter& painter, const BoardInk& ink, const QRectF& box, const QPointF& zero) {
    if (box.isEmpty()) return;
    const Palette& c = Theme::colours();
    const std::vector<double>& steps = ruleSteps(ink.desk.scene().units.unit);
    const auto at = std::find(steps.begin(), steps.end(), ink.grid);
    for (int level = 0; level < 3 && at + level < steps.end(); ++level) {
        const double step = *(at + level) * ink.view.scale;
        const double room = std::clamp((step - leastGrid) / (3 * leastGrid), 0.0, 1.0);
        const double share = level == 0 ? 0.16 + 0.22 * room : level == 1 ? 0.5 : 0.8;
        painter.setPen(QPen(Theme::mix(c.line, c.card, share), 1 / ink.ratio));
        for (double x = zero.x() + std::ceil((box.left() - zero.x()) / step) * step; x <= box.right();
             x += step)
            painter.drawLine(QPointF(ink.crisp(x), box.top()), QPointF(ink.crisp(x), box.bottom()));
        for (double y = zero.y() + std::ceil((box.top() - zero.y()) / step) * step; y <= box.bottom();
             y += step)
            painter.drawLine(QPointF(box.left(), ink.crisp(y)), QPointF(box.right(), ink.crisp(y)));
    }
}

constexpr double axisRoom = 22; // px, at a ruler's end

struct Rule {
    double from = 0, to = 0; ///< px along the ruler
    double zero = 0;         ///< px
    bool across = true;
    QString axis;
};

void paintMark(QPainter& painter, const Rule& rule, double px, double length, double ratio) {
    const double at = (std::floor(px * ratio) + 0.5) / ratio;
    const double edge = BoardCanvas::ruler;
    if (rule.across)
        painter.drawLine(QPointF(at, edge - length), QPointF(at, edge));
    else
        painter.drawLine(QPointF(edge - length, at), QPointF(edge, at));
}

void paintRule(QPainter& painter, const BoardInk& ink, const Rule& rule) {
    if (rule.to - rule.from < 4) return;
    const Palette& c = Theme::colours();
    const double scale = ink.view.scale, sign = rule.across ? 1 : -1;
    double from = (rule.from - rule.zero) / scale * sign, to = (rule.to - rule.zero) / scale * sign;
    if (from > to) std::swap(from, to);
    const QFont font = Theme::figures(11);
    painter.save();
    const double edge = BoardCanvas::ruler;
    painter.setClipRect(rule.across ? QRectF(rule.from, 0, rule.to - rule.from, edge)
                                    : QRectF(0, rule.from, edge, rule.to - rule.from));
    const QFontMetricsF metrics(font);
    for (const RuleTick& tick : ruleTicks(from, to, scale, ink.desk.scene().units)) {
        const double px = rule.zero + sign * tick.at * scale;
        painter.setPen(QPen(tick.words.empty() && tick.rank == 0 ? Theme::mix(c.quiet, c.card, 0.6) : c.quiet,
                            1 / ink.ratio));
        paintMark(painter, rule, px, tick.words.empty() ? 3.0 + 2.0 * std::min(tick.rank, 3) : edge - 4,
                  ink.ratio);
        if (tick.words.empty()) continue;
        const QString words = QString::fromStdString(tick.words);
        const double half = metrics.horizontalAdvance(words) / 2 + 4;
        // Whole figures only, and none under the axis's name.
        const double near = rule.across ? px + 4 : px - 2 * half + 4;
        if (near < rule.from || near + 2 * half - 8 > rule.to - axisRoom) continue;
        if (rule.across)
            drawText(painter, {px + half, 8}, words, font, c.ink);
        else
            drawText(painter, {8, px - half}, words, font, c.ink, 90);
    }
    painter.restore();
}

void paintAxisName(QPainter& painter, const QPointF& at, const QString& axis) {
    const Palette& c = Theme::colours();
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.paper);
    painter.drawEllipse(at, 8, 8);
    drawText(painter, at, axis, Theme::words(11, true), c.chosen);
}

} // namespace

double BoardInk::crisp(double px) const {
    return (std::floor(px * ratio) + 0.5) / ratio;
}

double gridStep(double pixelsPerMm, Unit unit) {
    return ruleStep(pixelsPerMm, leastGrid, unit);
}

QPointF folds(const BoardInk& ink) {
    const BoardSheet& sheet = ink.desk.sheet();
    const double right = std::max(sheet.area[0].max.x(), sheet.area[2].max.x());
    const double low = std::min(sheet.area[0].min.y(), sheet.area[1].min.y());
    return ink.view.toScreen(Vec2((right + sheet.area[1].min.x()) / 2, (low + sheet.area[2].max.y()) / 2));
}

void paintGrid(QPainter& painter, const BoardInk& ink) {
    const QRectF& paper = ink.paper;
    const QPointF fold = folds(ink);
    const double x = std::clamp(fold.x(), paper.left(), paper.right());
    const double y = std::clamp(fold.y(), paper.top(), paper.bottom());
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, false);
    const auto zero = [&](BoardView view) { return ink.on(view, Vec2::Zero()); };
    paintQuarter(painter, ink, {paper.topLeft(), QPointF(x, y)}, zero(BoardView::side));
    paintQuarter(painter, ink, {QPointF(x, paper.top()), QPointF(paper.right(), y)}, zero(BoardView::front));
    paintQuarter(painter, ink, {QPointF(paper.left(), y), QPointF(x, paper.bottom())}, zero(BoardView::plan));
    painter.restore();
}

void paintRulers(QPainter& painter, const BoardInk& ink, const std::optional<QPointF>& pointer) {
    const Palette& c = Theme::colours();
    const double edge = BoardCanvas::ruler, right = ink.paper.right(), bottom = ink.paper.bottom();
    const QPointF fold = folds(ink);
    const double x = std::clamp(fold.x(), edge, right), y = std::clamp(fold.y(), edge, bottom);
    painter.fillRect(QRectF(0, 0, right, edge), c.paper);
    painter.fillRect(QRectF(0, 0, edge, bottom), c.paper);
    const Rule rules[] = {{edge, x, originPx(ink, BoardView::side, true), true, "x"},
                          {x, right, originPx(ink, BoardView::front, true), true, "y"},
                          {edge, y, originPx(ink, BoardView::side, false), false, "z"},
                          {y, bottom, originPx(ink, BoardView::plan, false), false, "y"}};
    for (const Rule& rule : rules) paintRule(painter, ink, rule);
    painter.setPen(QPen(c.line, 1));
    painter.drawLine(QPointF(edge, ink.crisp(edge)), QPointF(right, ink.crisp(edge)));
    painter.drawLine(QPointF(ink.crisp(edge), edge), QPointF(ink.crisp(edge), bottom));
    painter.setPen(QPen(c.quiet, 1));
    if (x > edge && x < right) painter.drawLine(QPointF(ink.crisp(x), 2), QPointF(ink.crisp(x), edge));
    if (y > edge && y < bottom) painter.drawLine(QPointF(2, ink.crisp(y)), QPointF(edge, ink.crisp(y)));
    for (const Rule& rule : rules) {
        if (rule.to - rule.from < 40) continue;
        paintAxisName(painter, rule.across ? QPointF(rule.to - 12, 11) : QPointF(11, rule.to - 12),
                      rule.axis);
    }
    painter.fillRect(QRectF(0, 0, edge, edge), c.paper);
    drawText(painter, {edge / 2, edge / 2},
             QString::fromUtf8(std::string(unitName(ink.desk.scene().units.unit))), Theme::words(10),
             c.quiet);
    if (!pointer) return;
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.chosen);
    const QPointF& p = *pointer;
    painter.drawPolygon(QPolygonF({{p.x(), edge}, {p.x() - 4, edge - 6}, {p.x() + 4, edge - 6}}));
    painter.drawPolygon(QPolygonF({{edge, p.y()}, {edge - 6, p.y() - 4}, {edge - 6, p.y() + 4}}));
}

} // namespace slab::ui
