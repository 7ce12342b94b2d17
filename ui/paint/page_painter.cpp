#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>

namespace slab::ui {

QPen penFor(double widthMm, Dash dash, const QColor& colour) {
    // 0.5 mm cut lines show 1.6 px wide, everything from 0.3 mm down is one hairline.
    QPen pen(colour, std::clamp(widthMm * 3.2, 1.0, 2.4));
    pen.setCosmetic(true);
    pen.setJoinStyle(Qt::MiterJoin);
    pen.setCapStyle(Qt::FlatCap);
    if (dash == Dash::dashed) pen.setDashPattern({5, 3.5});
    if (dash == Dash::dashDot) pen.setDashPattern({8, 3, 1.5, 3});
    if (dash == Dash::dotted) pen.setDashPattern({1.5, 2.5});
    return pen;
}

namespace {

void paintLabel(QPainter& painter, const Label& label, const PaperView& view) {
    const double px = label.height * view.scale;
    if (px < 4 || px > 2000) return;
    QFont font = label.figures ? Theme::figures(12, label.bold) : Theme::words(12, label.bold);
    font.setPixelSize(static_cast<int>(px + 0.5));
    const QString text = QString::fromStdString(label.text);
    const double width = QFontMetricsF(font).horizontalAdvance(text);
    painter.save();
    painter.translate(view.toScreen(label.at));
    painter.rotate(-label.turn * 180 / 3.14159265358979323846);
    painter.setFont(font);
    painter.setPen(Theme::ink(label.ink));
    const double left = label.align == Align::left ? 0 : label.align == Align::centre ? -width / 2 : -width;
    painter.drawText(QPointF(left, 0), text);
    painter.restore();
}

void fillPath(QPainter& painter, const Fill& fill, const PaperView& view, const PaintOptions& options) {
    const QColor colour = options.fill.isValid() ? options.fill : Theme::ink(fill.ink);
    painter.setPen(Qt::NoPen);
    painter.setBrush(fill.hatch ? QBrush(colour, Qt::BDiagPattern) : QBrush(colour));
    painter.drawPath(view.path(fill.area));
}

} // namespace

void paintLayer(QPainter& painter, const Layer& layer, const PaperView& view, const PaintOptions& options) {
    if (options.fills) {
        for (const auto& fill : layer.fills) fillPath(painter, fill, view, options);
    }
    painter.setBrush(Qt::NoBrush);
    const auto colourOf = [&](Ink ink) { return options.line.isValid() ? options.line : Theme::ink(ink); };
    for (const auto& stroke : layer.strokes) {
        painter.setPen(penFor(stroke.width, stroke.dash, colourOf(stroke.ink)));
        const QPolygonF points = view.ring(stroke.points);
        stroke.closed ? painter.drawPolygon(points) : painter.drawPolyline(points);
    }
    for (const auto& circle : layer.circles) {
        painter.setPen(penFor(circle.width, circle.dash, colourOf(circle.ink)));
        const double r = circle.radius * view.scale;
        painter.drawEllipse(view.toScreen(circle.centre), r, r);
    }
    if (!options.labels) return;
    for (const auto& label : layer.labels) paintLabel(painter, label, view);
}

void paintGroup(QPainter& painter, const Group& group, const PaperView& view, const PaintOptions& options) {
    for (const auto& layer : group.layers) paintLayer(painter, layer, view, options);
}

void paintPage(QPainter& painter, const Page& page, const PaperView& view, const PaintOptions& options) {
    painter.save();
    if (page.clip) {
        const auto& c = *page.clip;
        painter.setClipRect(view.toScreen(Box2{{c[0], c[1]}, {c[0] + c[2], c[1] + c[3]}}), Qt::IntersectClip);
    }
    PaperView shifted = view;
    shifted.origin = view.toScreen(page.shift);
    for (const auto& group : page.groups) paintGroup(painter, group, shifted, options);
    painter.restore();
    paintGroup(painter, page.overlay, view, options);
}

int groupAt(const Page& page, const Vec2& mm) {
    const Vec2 p = mm - page.shift;
    for (std::size_t i = page.groups.size(); i-- > 0;) {
        for (const auto& layer : page.groups[i].layers) {
            for (const auto& fill : layer.fills) {
                if (contains(fill.area, p)) return static_cast<int>(i);
            }
            for (const auto& stroke : layer.strokes) {
                if (stroke.closed && contains(stroke.points, p)) return static_cast<int>(i);
            }
        }
    }
    return -1;
}

QString elided(const QString& text, const QFont& font, double width) {
    return QFontMetricsF(font).elidedText(text, Qt::ElideMiddle, std::max(0.0, width));
}

void drawText(QPainter& painter, const QPointF& centre, const QString& text, const QFont& font,
              const QColor& colour, double degrees, const QColor& halo) {
    const QFontMetricsF metrics(font);
    const double w = metrics.horizontalAdvance(text), h = metrics.height();
    painter.save();
    painter.translate(centre);
    painter.rotate(-degrees);
    if (halo.isValid()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(halo);
        painter.drawRoundedRect(QRectF(-w / 2 - 4, -h / 2, w + 8, h), 4, 4);
    }
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(QPointF(-w / 2, metrics.ascent() - h / 2), text);
    painter.restore();
}

} // namespace slab::ui
