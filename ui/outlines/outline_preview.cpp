#include "ui/outlines/outline_preview.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

QPointF pointOfDrawing(const Vec2& p) {
    return {p.x(), p.y()};
}

QPainterPath pathOfOutline(const SvgSubpath& outline) {
    QPainterPath path(pointOfDrawing(outline.start));
    for (const SvgSegment& s : outline.segments) {
        if (s.kind == SvgSegment::Kind::line) path.lineTo(pointOfDrawing(s.to));
        if (s.kind == SvgSegment::Kind::cubic)
            path.cubicTo(pointOfDrawing(s.c1), pointOfDrawing(s.c2), pointOfDrawing(s.to));
        if (s.kind != SvgSegment::Kind::arc) continue;
        constexpr int pieces = 48; // of a whole turn, far finer than a pixel of the picture
        for (int i = 1; i <= pieces; ++i)
            path.lineTo(pointOfDrawing(s.arc.at(s.arc.start + s.arc.sweep * i / pieces)));
    }
    if (outline.closed) path.closeSubpath();
    return path;
}

} // namespace

OutlinePreview::OutlinePreview(const std::vector<SvgChoice>& outlines, QWidget* parent)
    : QWidget(parent), m_taken(outlines.size(), false) {
    setMouseTracking(true);
    setAccessibleName(tr("the drawing"));
    setAccessibleDescription(tr("Click outlines to take them or to leave them; the list says the same."));
    for (const SvgChoice& one : outlines) {
        m_paths.push_back(pathOfOutline(one.path));
        m_extent = m_extent.united(m_paths.back().boundingRect());
        m_corners.push_back(one.path.start);
        for (const SvgSegment& s : one.path.segments) m_corners.push_back(s.to);
    }
    if (m_extent.width() <= 0) m_extent.setWidth(1);
    if (m_extent.height() <= 0) m_extent.setHeight(1);
}

void OutlinePreview::setTaken(const std::vector<bool>& taken) {
    m_taken = taken;
    m_taken.resize(m_paths.size(), false);
    update();
}

void OutlinePreview::setHovered(int index) {
    m_hovered = index;
    update();
}

void OutlinePreview::askPoints(bool on) {
    m_asking = on;
    setCursor(on ? Qt::CrossCursor : Qt::ArrowCursor);
    update();
}

std::optional<std::array<Vec2, 2>> OutlinePreview::points() const {
    if (m_points.size() != 2) return {};
    return std::array{m_points[0], m_points[1]};
}

QTransform OutlinePreview::toWidget() const {
    const QRectF room = QRectF(rect()).adjusted(18, 18, -18, -18);
    const double scale = std::min(room.width() / m_extent.width(), room.height() / m_extent.height());
    QTransform all;
    all.translate(room.center().x(), room.center().y());
    all.scale(scale, scale);
    all.translate(-m_extent.center().x(), -m_extent.center().y());
    return all;
}

QPointF OutlinePreview::toScreen(const Vec2& at) const {
    return toWidget().map(pointOfDrawing(at));
}

int OutlinePreview::outlineAt(const QPointF& px) const {
    const QTransform map = toWidget();
    QPainterPathStroker stroker;
    stroker.setWidth(12);
    for (std::size_t i = 0; i < m_paths.size(); ++i)
        if (stroker.createStroke(map.map(m_paths[i])).contains(px)) return static_cast<int>(i);
    // Inside: the smallest lies on top, and the largest come first in the list.
    for (std::size_t i = m_paths.size(); i-- > 0;)
        if (map.map(m_paths[i]).contains(px)) return static_cast<int>(i);
    return -1;
}

Vec2 OutlinePreview::cornerNear(const QPointF& px) const {
    const QPointF free = toWidget().inverted().map(px);
    Vec2 best(free.x(), free.y());
    double least = 10; // px
    for (const Vec2& corner : m_corners) {
        const QPointF off = toScreen(corner) - px;
        const double away = std::hypot(off.x(), off.y());
        if (away < least) least = away, best = corner;
    }
    return best;
}

void OutlinePreview::mousePressEvent(QMouseEvent* event) {
    if (!m_asking) {
        const int index = outlineAt(event->position());
        if (index >= 0) Q_EMIT clicked(index);
        return;
    }
    if (m_points.size() >= 2) m_points.clear();
    m_points.push_back(cornerNear(event->position()));
    update();
    Q_EMIT marked();
}

void OutlinePreview::mouseMoveEvent(QMouseEvent* event) {
    if (!m_asking) setHovered(outlineAt(event->position()));
}

void OutlinePreview::leaveEvent(QEvent*) {
    setHovered(-1);
}

void OutlinePreview::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paintSheet(painter, *this);
    const Palette& c = Theme::colours();
    const QTransform map = toWidget();
    for (const bool taken : {false, true})
        for (std::size_t i = 0; i < m_paths.size(); ++i) {
            if (m_taken[i] != taken) continue;
            QColor fill = c.chosen;
            fill.setAlphaF(0.14F);
            painter.setBrush(taken ? QBrush(fill) : QBrush(Qt::NoBrush));
            const bool over = static_cast<int>(i) == m_hovered;
            painter.setPen(QPen(taken ? c.chosen : over ? c.ink : c.quiet, taken || over ? 2.2 : 1.2));
            painter.drawPath(map.map(m_paths[i]));
        }
    if (!m_asking) return;
    painter.setPen(QPen(c.tight, 2));
    painter.setBrush(c.card);
    if (m_points.size() == 2) painter.drawLine(toScreen(m_points[0]), toScreen(m_points[1]));
    for (const Vec2& p : m_points) painter.drawEllipse(toScreen(p), 5, 5);
}

} // namespace slab::ui
