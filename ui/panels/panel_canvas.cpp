#include "ui/panels/panel_canvas.h"
#include "core/drawing/fold_ink.h"
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
constexpr double sizeColumn = 14; // px from the left border to the height's dimension line
} // namespace

PanelCanvas::PanelCanvas(QWidget* parent) : QWidget(parent) {
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("panel drawing"));
    setToolTip({});
    setAccessibleDescription(
        tr("The chosen panel, outside face up. Click an edge to choose its joint; left and right "
           "arrows go from edge to edge."));
}

void PanelCanvas::show(std::optional<PanelPicture> picture) {
    const bool other = picture.has_value() != m_picture.has_value() ||
                       (picture && picture->panel.name != m_picture->panel.name);
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
    if (!m_touched) fit();
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
    return box;
}

void PanelCanvas::fit() {
    if (!m_picture || m_picture->panel.boundary.outer.empty()) return;
    // Room for edge words and sizes, less of it in a small view.
    const double side = std::clamp(width() * 0.2, 56.0, 120.0), down = std::min(58.0, height() * 0.2);
    m_view.fit(extent(), QRectF(rect()).adjusted(side + 22, down * 0.66, -side, -down));
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
    paintPanel(painter);
    paintName(painter);
    paintOpenings(painter);
    paintEdges(painter);
    paintSizes(painter);
    paintUp(painter);
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

void PanelCanvas::paintName(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const QString tail = QString::fromStdString(m_picture->panel.name).section('/', 1);
    const QString number = QString::number(m_picture->number);
    const QColor tint = Theme::tint(QString::fromStdString(m_picture->stockKind));
    const QColor pale = Theme::mix(c.ink, Theme::mix(tint, c.card, 0.5), Theme::dark() ? 0.30 : 0.26);
    QFont font = Theme::words(20, true);
    for (const QString& words : {number + QStringLiteral("  ") + tail, number}) {
        for (int px = 46; px >= 14; px -= 4) {
            font.setPixelSize(px);
            const QFontMetricsF metrics(font);
            const auto at = placeInside(m_inside, m_view, metrics.horizontalAdvance(words) + 12,
                                        metrics.height(), m_room.at);
            if (!at) continue;
            drawText(painter, *at, words, font, pale);
            return;
        }
    }
}

void PanelCanvas::paintOpenings(QPainter& painter) const {
    const QFont font = Theme::words(11);
    for (const auto& hole : m_picture->panel.holes) {
        if (hole.outer.size() < 3) continue;
        const Box2 box = bounds(hole.outer);
        const QRectF on = m_view.toScreen(box);
        if (on.height() < 14) continue;
        const QString name = elided(QString::fromStdString(hole.opening), font, on.width() - 8);
        if (name.size() >= 2) drawText(painter, on.center(), name, font, Theme::colours().quiet);
    }
}

void PanelCanvas::paintEdges(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const auto highlight = [&](int edge, double width, double share) {
        if (edge < 0 || edge >= static_cast<int>(m_picture->edges.size())) return;
        QPen pen(Theme::mix(c.chosen, c.card, share), width);
        pen.setCapStyle(Qt::RoundCap);
        painter.setPen(pen);
        painter.drawLine(lineOnScreen(static_cast<std::size_t>(edge)));
    };
    if (m_hovered != m_chosen) highlight(m_hovered, 4, 0.55);
    highlight(m_chosen, 3.4, 1);
    std::vector<QRectF> taken;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < m_picture->edges.size(); ++i) order.push_back(i);
    const auto weight = [&](std::size_t i) {
        const double own = m_picture->edges[i].length;
        return static_cast<int>(i) == m_chosen ? 1e12 : static_cast<int>(i) == m_hovered ? 1e11 : own;
    };
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return weight(a) > weight(b); });
    for (const auto i : order) paintEdgeLabel(painter, i, taken);
}

QString PanelCanvas::edgeWords(std::size_t edge) const {
    const PanelEdge& e = m_picture->edges[edge];
    const std::size_t outline = m_picture->panel.boundary.edges.size();
    if (edge >= outline) {
        const PanelFold& fold = m_picture->panel.folds[edge - outline];
        return QString::fromStdString(foldWords(fold, m_picture->units)).replace(", ", QStringLiteral(" · "));
    }
    if (e.neighbour.empty()) return tr("free");
    const QString full = QString::fromStdString(e.neighbour);
    const QString form = QString::fromStdString(m_picture->plate).section('/', 0, 0);
    const QString name = full.section('/', 0, 0) == form ? full.section('/', 1) : full;
    QString words = name + QStringLiteral(" · ") + QString::fromLatin1(roleName(e.role));
    if (std::abs(e.bevel) > 1e-3)
        words += tr(" · tilt %1").arg(QString::fromStdString(printAngle(std::abs(e.bevel))));
    return words;
}

void PanelCanvas::paintEdgeLabel(QPainter& painter, std::size_t edge, std::vector<QRectF>& taken) const {
    const Palette& c = Theme::colours();
    const QLineF line = lineOnScreen(edge);
    const QPointF a = line.p1(), b = line.p2(), d = b - a;
    const double length = std::hypot(d.x(), d.y());
    const bool strong = static_cast<int>(edge) == m_chosen || static_cast<int>(edge) == m_hovered;
    if (length < 22 && !strong) return;
    // Counter-clockwise on paper: the outside is on the right of a to b (screen y points down).
    const QPointF out = length > 0 ? QPointF(-d.y(), d.x()) / length : QPointF(0, 1);
    const QFont font = Theme::words(11, strong);
    const QFontMetricsF metrics(font);
    // Beside the panel there is little width: the words stand one below the other.
    const bool beside = std::abs(out.x()) > 0.5;
    const QPointF middle = (a + b) / 2;
    const double room =
        !beside ? (strong ? 260.0 : std::max(140.0, length * 0.95))
                : std::max(40.0, out.x() > 0 ? width() - middle.x() - 10 : middle.x() - sizeColumn - 18);
    QStringList lines{edgeWords(edge)};
    if (beside && metrics.horizontalAdvance(lines.first()) > room)
        lines = lines.first().split(QStringLiteral(" · "));
    double w = 0;
    for (auto& words : lines) {
        words = elided(words, font, room);
        w = std::max(w, metrics.horizontalAdvance(words));
    }
    const double row = metrics.height(), h = row * static_cast<double>(lines.size());
    const double away = 7 + std::abs(out.x()) * w / 2 + std::abs(out.y()) * h / 2;
    for (const double share : {0.5, 0.32, 0.68}) {
        QPointF centre = a + d * share + out * away;
        centre.setX(std::clamp(centre.x(), w / 2 + 2, std::max(w / 2 + 2, width() - w / 2 - 2)));
        const QRectF box(centre.x() - w / 2 - 3, centre.y() - h / 2, w + 6, h);
        const bool covered =
            std::any_of(taken.begin(), taken.end(), [&](const QRectF& r) { return r.intersects(box); });
        if (covered && !strong) continue;
        taken.push_back(box);
        for (qsizetype k = 0; k < lines.size(); ++k)
            drawText(painter, {centre.x(), box.top() + row * (static_cast<double>(k) + 0.5)}, lines[k], font,
                     strong ? c.chosen : c.quiet, 0, strong ? c.card : QColor());
        return;
    }
}

void PanelCanvas::paintSizes(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const Box2 box = bounds(m_picture->panel.boundary.outer);
    const QRectF on = m_view.toScreen(box);
    const QFont font = Theme::figures(12);
    const double low = std::min(on.bottom() + 34, height() - 12.0), left = sizeColumn;
    painter.setPen(QPen(c.quiet, 1));
    const auto tick = [&](const QPointF& p, const QPointF& by) { painter.drawLine(p - by, p + by); };
    painter.drawLine(QPointF(on.left(), low), QPointF(on.right(), low));
    tick({on.left(), low}, {0, 4});
    tick({on.right(), low}, {0, 4});
    painter.drawLine(QPointF(left, on.top()), QPointF(left, on.bottom()));
    tick({left, on.top()}, {4, 0});
    tick({left, on.bottom()}, {4, 0});
    const auto size = [&](double mm) { return QString::fromStdString(printLength(mm, m_picture->units)); };
    drawText(painter, {std::clamp(on.center().x(), 30.0, width() - 30.0), low}, size(box.size().x()), font,
             c.ink, 0, c.card);
    drawText(painter, {left, std::clamp(on.center().y(), 30.0, height() - 30.0)}, size(box.size().y()), font,
             c.ink, 90, c.card);
}

void PanelCanvas::paintUp(QPainter& painter) const {
    if (height() < 150) return;
    const Palette& c = Theme::colours();
    const Vec2 up = m_picture->panel.up.normalized();
    const QPointF dir(up.x(), -up.y()), side(-dir.y(), dir.x());
    const QPointF centre(width() - 26.0, 30.0);
    const QPointF tip = centre + dir * 12, tail = centre - dir * 12;
    painter.setPen(QPen(c.quiet, 1.4));
    painter.drawLine(tail, tip - dir * 4);
    painter.setBrush(c.quiet);
    painter.setPen(Qt::NoPen);
    painter.drawPolygon(QPolygonF({tip, tip - dir * 8 + side * 4, tip - dir * 8 - side * 4}));
    const QString word = QString::fromStdString(m_picture->panel.upWord);
    const QFont font = Theme::words(10);
    drawText(painter, {width() - 26.0, 54.0}, elided(word, font, 52), font, c.quiet);
}

void PanelCanvas::resizeEvent(QResizeEvent*) {
    if (!m_touched) fit();
}

void PanelCanvas::mousePressEvent(QMouseEvent* event) {
    m_pressed = m_last = event->position();
    m_dragging = false;
}

void PanelCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() == Qt::NoButton) {
        const int edge = edgeAt(event->position());
        if (edge == m_hovered) return;
        m_hovered = edge;
        setCursor(edge >= 0 ? Qt::PointingHandCursor : Qt::ArrowCursor);
        setToolTip(edge >= 0 ? tr("Click to choose the joint at this edge") : QString());
        update();
        return;
    }
    if ((event->position() - m_pressed).manhattanLength() > 5) m_dragging = true;
    if (!m_dragging) return;
    m_view.origin += event->position() - m_last;
    m_last = event->position();
    m_touched = true;
    update();
}

void PanelCanvas::mouseReleaseEvent(QMouseEvent* event) {
    if (m_dragging || event->button() != Qt::LeftButton) return;
    const int edge = edgeAt(event->position());
    if (edge >= 0)
        Q_EMIT edgeClicked(edge);
    else
        Q_EMIT emptyClicked();
}

void PanelCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (edgeAt(event->position()) < 0) fit();
}

void PanelCanvas::wheelEvent(QWheelEvent* event) {
    m_view.zoomAt(event->position(), std::pow(1.0015, event->angleDelta().y()), 0.005, 40);
    m_touched = true;
    update();
    event->accept();
}

void PanelCanvas::keyPressEvent(QKeyEvent* event) {
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

void PanelCanvas::leaveEvent(QEvent*) {
    if (m_hovered < 0) return;
    m_hovered = -1;
    update();
}

} // namespace slab::ui
