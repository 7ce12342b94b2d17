#include "ui/board/label_boxes.h"
#include <QFontMetricsF>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double clear = 4; // px between a label and what lies beside it

/// Length of a line inside a box.
double inside(const QLineF& line, const QRectF& box) {
    double from = 0, to = 1;
    const QPointF way = line.p2() - line.p1();
    for (int axis = 0; axis < 2; ++axis) {
        const double p = axis == 0 ? line.x1() : line.y1(), d = axis == 0 ? way.x() : way.y();
        const double low = axis == 0 ? box.left() : box.top(), high = axis == 0 ? box.right() : box.bottom();
        if (std::abs(d) < 1e-9) {
            if (p < low || p > high) return 0;
            continue;
        }
        const double a = (low - p) / d, b = (high - p) / d;
        from = std::max(from, std::min(a, b));
        to = std::min(to, std::max(a, b));
    }
    return to > from ? (to - from) * line.length() : 0;
}

/// What a label would cover there: other labels count by their area, lines by their length.
double covered(const QRectF& box, const std::vector<QRectF>& placed, const std::vector<QLineF>& lines) {
    double sum = 0;
    for (const QRectF& other : placed) {
        const QRectF both = box.adjusted(-clear, -clear, clear, clear).intersected(other);
        if (both.isValid()) sum += 10 * both.width() * both.height();
    }
    for (const QLineF& line : lines) sum += inside(line, box);
    return sum;
}

} // namespace

std::vector<QRectF> labelBoxes(const std::vector<QLineF>& lines, const QStringList& words,
                               const QFont& font) {
    const QFontMetricsF metrics(font);
    std::vector<QRectF> placed;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const QLineF& line = lines[i];
        const QSizeF size(metrics.horizontalAdvance(words[static_cast<qsizetype>(i)]) + 4, metrics.height());
        const double length = std::max(line.length(), 1e-9);
        QPointF normal(line.dy() / length, -line.dx() / length);
        if (normal.y() > 1e-9 || (std::abs(normal.y()) <= 1e-9 && normal.x() < 0)) normal = -normal;
        const double reach =
            std::abs(normal.x()) * size.width() / 2 + std::abs(normal.y()) * size.height() / 2 + clear;
        QRectF best;
        double least = -1;
        for (const double out : {1.0, 2.6, 4.2})
            for (const double side : {1.0, -1.0})
                for (const double along : {0.5, 0.3, 0.7, 0.1, 0.9}) {
                    QRectF box(QPointF(), size);
                    const double off = reach + (out - 1) * size.height();
                    box.moveCenter(line.pointAt(along) + normal * side * off);
                    const double here = covered(box, placed, lines);
                    if (least >= 0 && here >= least) continue;
                    least = here;
                    best = box;
                }
        placed.push_back(best);
    }
    return placed;
}

QRectF wordBox(const QSizeF& size, const WordRoom& room) {
    QRectF best;
    double least = -1;
    // Beyond the other side it would seem to name what lies there.
    for (const double side : {room.first, -room.first})
        for (const double rows : {1.0, 1.8})
            for (const QPointF& anchor : room.anchors)
                for (const double aside : {0.0, side * 0.5, side * -0.5}) {
                    QRectF box(QPointF(), size);
                    box.moveCenter(anchor + QPointF(aside * (size.width() + 2 * clear),
                                                    side * rows * (size.height() / 2 + clear)));
                    if (!room.within.contains(box)) continue;
                    const double here = covered(box, room.taken, room.lines);
                    if (least >= 0 && here >= least) continue;
                    least = here;
                    best = box;
                }
    return best;
}

} // namespace slab::ui
