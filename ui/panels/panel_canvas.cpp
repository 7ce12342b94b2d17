#include "ui/panels/panel_canvas.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/sheets.h"
#include "ui/paint/page_painter.h"
#include "ui/panels/blank_edges.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {
constexpr double reachPx = 9;
} // namespace

PanelCanvas::PanelCanvas(QWidget* parent) : QWidget(parent) {
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("panel drawing"));
    setToolTip({});
    setAccessibleDescription(
        tr("The chosen panel, outside face up. Click an edge to choose its joint; left and right "
           "arrows go from edge to edge; page up and page down from opening to opening."));
}

void PanelCanvas::show(std::optional<PanelPicture> picture) {
    const bool other = picture.has_value() != m_picture.has_value() ||
                       (picture && (picture->panel.name != m_picture->panel.name ||
                                    picture->document != m_picture->document));
    const std::optional<Box2> before = m_picture ? std::optional(extent()) : std::nullopt;
    m_picture = std::move(picture);
    if (m_picture) {
        m_group = panelGroup(m_picture->panel, tintFor(m_picture->stockKind));
        m_inside = {m_picture->panel.boundary.inner.size() >= 3 ? m_picture->panel.boundary.inner
                                                                : m_picture->panel.boundary.outer,
                    {}};
        for (const auto& hole : m_picture->panel.holes) m_inside.holes.push_back(hole.outer);
        m_room = roomiest(m_inside);
    }
    if (other) m_hovered = -1, m_touched = false;
    if (m_taken) return update(); // under a dragging hand nothing moves away
    if (!m_touched)
        fit();
    else if (before && m_picture)
        keepInView(*before);
    update();
}

void PanelCanvas::setChosenEdge(int edge) {
    m_chosen = edge;
    update();
}

Box2 PanelCanvas::extent() const {
    const Panel& panel = m_picture->panel;
    Box2 box = bounds(panel.boundary.outer);
    if (!panel.boundary.inner.empty()) box = united(box, bounds(panel.boundary.inner));
    for (const Ring& ring : m_picture->others) box = united(box, bounds(ring));
    return box;
}

void PanelCanvas::keepInView(const Box2& before) {
    const Box2 now = extent();
    const Vec2 was = before.size().cwiseMax(1e-6), is = now.size().cwiseMax(1e-6);
    if ((now.min - before.min).norm() < 1e-6 && (is - was).norm() < 1e-6) return;
    const QPointF middle = QRectF(rect()).center();
    const Vec2 at = (m_view.toPaper(middle) - before.min).cwiseQuotient(was);
    m_view.scale *= was.norm() / is.norm();
    const Vec2 there = now.min + at.cwiseProduct(is);
    m_view.origin = middle - QPointF(there.x(), -there.y()) * m_view.scale;
}

void PanelCanvas::fit() {
    if (!m_picture || m_picture->panel.boundary.outer.empty()) return;
    m_view.fit(extent(), QRectF(rect()).marginsRemoved(roomForWords()));
    m_touched = false;
    update();
}

QPolygonF PanelCanvas::outlineOnScreen() const {
    return m_picture ? m_view.ring(m_picture->panel.boundary.outer) : QPolygonF();
}

QLineF PanelCanvas::lineOnScreen(std::size_t edge) const {
    const auto [from, to] = drawnEnds(m_picture->panel, edge);
    return {m_view.toScreen(from), m_view.toScreen(to)};
}

int PanelCanvas::edgeAt(const QPointF& px) const {
    if (!m_picture) return -1;
    int best = -1;
    double least = reachPx;
    for (std::size_t i = 0; i < m_picture->edges.size(); ++i) {
        const QLineF line = lineOnScreen(i);
        const double d = distanceToSegment(px, line.p1(), line.p2());
        if (d < least) least = d, best = static_cast<int>(i);
    }
    return best;
}

void PanelCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (!m_picture) return;
    paintOthers(painter);
    paintPanel(painter);
    paintEdges(painter);
    paintWords(painter);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(Theme::mix(Theme::colours().chosen, Theme::colours().card, 0.5), 1));
        painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 6, 6);
    }
}

void PanelCanvas::paintPanel(QPainter& painter) const {
    const Palette& c = Theme::colours();
    PaintOptions options;
    options.labels = false;
    options.fill = Theme::mix(Theme::tint(QString::fromStdString(m_picture->stockKind)), c.card,
                              Theme::dark() ? 0.7 : 0.5);
    for (const auto& layer : m_group.layers) {
        if (layer.name == "marks") continue;
        options.line = layer.name == "inner" ? c.quiet : QColor();
        paintLayer(painter, layer, m_view, options);
    }
}

/// The rest of a plate that is cut in pieces, pale: a seam is seen in the whole.
void PanelCanvas::paintOthers(QPainter& painter) const {
    const Palette& c = Theme::colours();
    painter.setPen(QPen(Theme::mix(c.quiet, c.card, 0.6), 1, Qt::DashLine));
    painter.setBrush(Theme::mix(Theme::tint(QString::fromStdString(m_picture->stockKind)), c.card,
                                Theme::dark() ? 0.25 : 0.18));
    for (const Ring& ring : m_picture->others) painter.drawPolygon(m_view.ring(ring));
}

void PanelCanvas::paintUp(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const Vec2 up = m_picture->panel.up.normalized();
    const QPointF dir(up.x(), -up.y()), side(-dir.y(), dir.x());
    const QSizeF room = arrowRoom();
    const bool low = room.height() < 50;
    const double half = low ? 7 : 12;
    const QPointF centre(width() - room.width() / 2 + 2, low ? 12 : 30);
    const QPointF tip = centre + dir * half, tail = centre - dir * half;
    painter.setPen(QPen(c.quiet, 1.4));
    painter.drawLine(tail, tip - dir * 4);
    painter.setBrush(c.quiet);
    painter.setPen(Qt::NoPen);
    painter.drawPolygon(QPolygonF({tip, tip - dir * 8 + side * 4, tip - dir * 8 - side * 4}));
    const QString word = arrowWord();
    const QFont font = Theme::words(10);
    drawText(painter, {centre.x(), low ? 29.0 : 54.0}, elided(word, font, room.width() - 4), font, c.quiet);
}

void PanelCanvas::resizeEvent(QResizeEvent* event) {
    if (m_taken) return;
    if (!m_touched) return fit();
    if (!event->oldSize().isValid()) return;
    const QSize by = event->size() - event->oldSize();
    m_view.origin += QPointF(by.width(), by.height()) / 2; // what lies in the middle stays there
}

void PanelCanvas::mousePressEvent(QMouseEvent* event) {
    m_pressed = m_last = event->position();
    m_dragging = false;
    m_taken = event->button() == Qt::LeftButton && m_tool && m_picture &&
              m_tool->press(event->position(), event->modifiers());
}

void PanelCanvas::hover(QMouseEvent* event) {
    const bool taken = m_tool && m_picture && m_tool->hover(event->position(), event->modifiers());
    const int edge = taken ? -1 : edgeAt(event->position());
    setCursor(taken ? m_tool->cursor() : edge >= 0 ? Qt::PointingHandCursor : Qt::ArrowCursor);
    setToolTip(taken ? m_tool->tip() : edge >= 0 ? tr("Click to choose the joint at this edge") : QString());
    if (edge == m_hovered) return;
    m_hovered = edge;
    update();
}

void PanelCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() == Qt::NoButton) return hover(event);
    if (m_taken) return m_tool->drag(event->position(), event->modifiers());
    if ((event->position() - m_pressed).manhattanLength() > 5) m_dragging = true;
    if (!m_dragging) return;
    m_view.origin += event->position() - m_last;
    m_last = event->position();
    m_touched = true;
    update();
}

void PanelCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (m_taken && event->button() == Qt::LeftButton) {
        m_tool->release(event->position());
        m_taken = false;
        if (!m_touched) fit();
        return;
    }
    if (m_dragging) return;
    const int edge = edgeAt(event->position());
    if (event->button() == Qt::RightButton) return Q_EMIT menuWanted(edge, event->globalPosition().toPoint());
    if (event->button() != Qt::LeftButton) return;
    if (edge >= 0)
        Q_EMIT edgeClicked(edge);
    else
        Q_EMIT emptyClicked();
}

void PanelCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    const bool taken = m_tool && m_picture && m_tool->hover(event->position(), event->modifiers());
    if (!taken && edgeAt(event->position()) < 0) fit();
}

void PanelCanvas::wheelEvent(QWheelEvent* event) {
    m_view.zoomAt(event->position(), std::pow(1.0015, event->angleDelta().y()), 0.005, 40);
    m_touched = true;
    update();
    event->accept();
}

void PanelCanvas::keyPressEvent(QKeyEvent* event) {
    if (m_tool && m_picture && m_tool->key(*event)) return;
    const int n = m_picture ? static_cast<int>(m_picture->edges.size()) : 0;
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right:
        if (n > 0) {
            const int by = event->key() == Qt::Key_Right ? 1 : -1;
            Q_EMIT edgeClicked(m_chosen < 0 ? 0 : (m_chosen + by + n) % n);
        }
        break;
    case Qt::Key_F:
        fit();
        break;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
    case Qt::Key_Minus:
        m_view.zoomAt(rect().center(), event->key() == Qt::Key_Minus ? 1 / 1.2 : 1.2, 0.005, 40);
        m_touched = true;
        update();
        break;
    case Qt::Key_Escape:
        Q_EMIT emptyClicked();
        break;
    default:
        QWidget::keyPressEvent(event);
    }
}

void PanelCanvas::keyReleaseEvent(QKeyEvent* event) {
    const bool arrow = event->key() >= Qt::Key_Left && event->key() <= Qt::Key_Down;
    if (m_tool && arrow && !event->isAutoRepeat()) m_tool->keyUp();
    QWidget::keyReleaseEvent(event);
}

void PanelCanvas::leaveEvent(QEvent*) {
    if (m_tool) m_tool->away();
    if (m_hovered < 0) return;
    m_hovered = -1;
    update();
}

} // namespace slab::ui
