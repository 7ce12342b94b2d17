// The words round a panel's drawing: what each edge meets, and the room that they need.
#include "core/drawing/fold_ink.h"
#include "core/drawing/panel_facts.h"
#include "ui/paint/page_painter.h"
#include "ui/panels/panel_canvas.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPixmap>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {
constexpr double shortest = 22; // px; shorter edges have no words unless they are chosen
} // namespace

int PanelCanvas::wordsPx() const {
    return std::clamp(11 + (std::min(width(), height()) - 360) / 120, 11, 14);
}

QString PanelCanvas::arrowWord() const {
    if (!m_picture) return {};
    return QString::fromStdString(m_picture->arrow.empty() ? m_picture->panel.upWord : m_picture->arrow);
}

/// Of the top right corner, for the direction arrow and its word.
QSizeF PanelCanvas::arrowRoom() const {
    const QString word = arrowWord();
    const double wide = std::clamp(QFontMetricsF(Theme::words(10)).horizontalAdvance(word) + 14, 30.0, 60.0);
    return {wide, height() < 190 ? 38.0 : 66.0};
}

double PanelCanvas::sizeLine() const {
    const QRectF on = m_view.toScreen(bounds(m_picture->panel.boundary.outer));
    return std::min(on.bottom() + 62, height() - 11.0);
}

/// Each side is as wide as the words that will stand there; what is left is the panel's.
QMarginsF PanelCanvas::roomForWords() const {
    const Ring& ring = m_picture->panel.boundary.outer;
    const Vec2 size = bounds(ring).size();
    // About the scale that it will have: edges too short there have no words and need no room.
    const double scale =
        std::min(0.6 * width() / std::max(size.x(), 1.0), 0.7 * height() / std::max(size.y(), 1.0));
    const double least = shortest / scale, most = width() * 0.3;
    const QFontMetricsF metrics(Theme::words(wordsPx()));
    double left = 0, right = 0;
    for (std::size_t i = 0; i < ring.size() && i < m_picture->edges.size(); ++i) {
        const Vec2 d = ring[(i + 1) % ring.size()] - ring[i];
        const double outward =
            d.norm() > 0 ? d.y() / d.norm() : 0; // counter-clockwise: the outside is on the right
        if (d.norm() < least || std::abs(outward) <= 0.5) continue;
        double widest = 0;
        for (const QString& line : edgeWords(i).split(QStringLiteral(" · ")))
            widest = std::max(widest, metrics.horizontalAdvance(line));
        double& side = outward > 0 ? right : left;
        side = std::max(side, std::min(widest + 16, most));
    }
    // One line of words above, one below and the size under it.
    const double line = metrics.height();
    const double down = std::clamp(height() * 0.2, 2 * line + 10, 58.0 + 2 * (line - 12)),
                 up = std::clamp(height() * 0.14, line + 10, 38.0);
    return {panelSizeColumn + 16 + left, up, std::max(right, arrowRoom().width()), down};
}

/// The dimension lines themselves: words keep off them.
std::vector<QRectF> PanelCanvas::dimensionLines() const {
    const QRectF on = m_view.toScreen(bounds(m_picture->panel.boundary.outer));
    return {QRectF(on.left() - 4, sizeLine() - 9, on.width() + 8, 18),
            QRectF(panelSizeColumn - 9, on.top() - 4, 18, on.height() + 8)};
}

std::array<PanelCanvas::Figure, 2> PanelCanvas::figures() const {
    const Box2 box = bounds(m_picture->panel.boundary.outer);
    const QRectF on = m_view.toScreen(box);
    const QFontMetricsF metrics(Theme::figures(wordsPx() + 1));
    constexpr double thick = 9; // px from the middle of a line of figures to its border
    const auto figure = [&](double mm) {
        const QString words = QString::fromStdString(printLength(mm, m_picture->units));
        return std::pair(words, metrics.horizontalAdvance(words) / 2 + 4);
    };
    const auto [wide, halfWide] = figure(box.size().x());
    const auto [high, halfHigh] = figure(box.size().y());
    const double low = sizeLine();
    Figure across{
        wide, {std::clamp(on.center().x(), halfWide, std::max(halfWide, width() - halfWide)), low}, 0, {}};
    across.box = {across.at.x() - halfWide, low - thick, 2 * halfWide, 2 * thick};
    // In a corner both would stand in the same place: the height gives way upwards, then altogether.
    const bool corner = across.box.left() < panelSizeColumn + thick;
    const double lowest = corner ? across.box.top() - halfHigh : height() - halfHigh;
    Figure up{
        high, {panelSizeColumn, std::clamp(on.center().y(), halfHigh, std::max(halfHigh, lowest))}, 90, {}};
    up.box = {panelSizeColumn - thick, up.at.y() - halfHigh, 2 * thick, 2 * halfHigh};
    if (up.box.intersects(across.box) || up.box.bottom() > height()) up = {};
    return {across, up};
}

void PanelCanvas::paintSizes(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const QRectF on = m_view.toScreen(bounds(m_picture->panel.boundary.outer));
    const double low = sizeLine(), left = panelSizeColumn;
    painter.setPen(QPen(c.quiet, 1));
    const auto tick = [&](const QPointF& p, const QPointF& by) { painter.drawLine(p - by, p + by); };
    painter.drawLine(QPointF(on.left(), low), QPointF(on.right(), low));
    tick({on.left(), low}, {0, 4});
    tick({on.right(), low}, {0, 4});
    painter.drawLine(QPointF(left, on.top()), QPointF(left, on.bottom()));
    tick({left, on.top()}, {4, 0});
    tick({left, on.bottom()}, {4, 0});
    for (const Figure& one : figures())
        if (!one.words.isEmpty())
            drawText(painter, one.at, one.words, Theme::figures(wordsPx() + 1), c.ink, one.turn, c.card);
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
}

std::vector<QRectF> PanelCanvas::paintWords(QPainter& painter) const {
    std::vector<QRectF> taken = dimensionLines();
    const std::size_t lines = taken.size();
    for (const Figure& one : figures())
        if (!one.words.isEmpty()) taken.push_back(one.box);
    taken.emplace_back(QPointF(width() - arrowRoom().width(), 0), arrowRoom());
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < m_picture->edges.size(); ++i) order.push_back(i);
    const auto weight = [&](std::size_t i) {
        const double own = m_picture->edges[i].length;
        return static_cast<int>(i) == m_chosen ? 1e12 : static_cast<int>(i) == m_hovered ? 1e11 : own;
    };
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return weight(a) > weight(b); });
    for (const auto i : order) paintEdgeLabel(painter, i, taken);
    paintOpenings(painter, taken);
    paintName(painter, taken);
    paintSizes(painter);
    paintUp(painter);
    if (m_tool) m_tool->paint(painter, taken);
    return {taken.begin() + static_cast<std::ptrdiff_t>(lines), taken.end()};
}

std::vector<QRectF> PanelCanvas::wordsOnScreen() const {
    if (!m_picture) return {};
    QPixmap paper(size());
    QPainter painter(&paper);
    return paintWords(painter);
}

void PanelCanvas::paintOpenings(QPainter& painter, std::vector<QRectF>& taken) const {
    const QFont font = Theme::words(wordsPx());
    const QFontMetricsF metrics(font);
    for (const auto& hole : m_picture->panel.holes) {
        if (hole.outer.size() < 3) continue;
        const QRectF on = m_view.toScreen(bounds(hole.outer));
        if (on.height() < 14) continue;
        const QString name = elided(QString::fromStdString(openingName(hole)), font, on.width() - 8);
        if (name.size() < 2) continue;
        QRectF box(0, 0, metrics.horizontalAdvance(name), metrics.height());
        box.moveCenter(on.center());
        if (isCovered(box, taken)) continue;
        taken.push_back(box);
        drawText(painter, on.center(), name, font, Theme::colours().quiet);
    }
}

void PanelCanvas::paintName(QPainter& painter, std::vector<QRectF>& taken) const {
    const Palette& c = Theme::colours();
    const QString tail = QString::fromStdString(m_picture->panel.name).section('/', 1);
    const QString number = QString::number(m_picture->number);
    const QColor tint = Theme::tint(QString::fromStdString(m_picture->stockKind));
    const QColor pale = Theme::mix(c.ink, Theme::mix(tint, c.card, 0.5), Theme::dark() ? 0.30 : 0.26);
    QFont font = Theme::words(20, true);
    for (const QString& words : {number + QStringLiteral("  ") + tail, number}) {
        for (int px = 46 + 8 * (wordsPx() - 11); px >= 14; px -= 4) {
            font.setPixelSize(px);
            const QFontMetricsF metrics(font);
            QRectF box(0, 0, metrics.horizontalAdvance(words) + 12, metrics.height());
            const auto at = placeInside(m_inside, m_view, box.width(), box.height(), m_room.at);
            if (!at) continue;
            box.moveCenter(*at);
            if (isCovered(box, taken)) continue;
            taken.push_back(box);
            drawText(painter, *at, words, font, pale);
            return;
        }
    }
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
    if (length < shortest && !strong) return;
    // Counter-clockwise on paper: the outside is on the right of a to b (screen y points down).
    const QPointF out = length > 0 ? QPointF(-d.y(), d.x()) / length : QPointF(0, 1);
    const QFont font = Theme::words(wordsPx(), strong);
    const QFontMetricsF metrics(font);
    // Beside the panel there is little width: the words stand one below the other.
    const bool beside = std::abs(out.x()) > 0.5;
    const QPointF middle = (a + b) / 2;
    const double room =
        !beside ? (strong ? 260.0 : std::max(140.0, length * 0.95))
                : std::max(40.0, out.x() > 0 ? width() - middle.x() - 10 : middle.x() - panelSizeColumn - 18);
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
    std::optional<QRectF> place;
    // Of the chosen edge and the one under the pointer the words may also stand inside the panel.
    for (const double side : {1.0, -1.0}) {
        for (const double share : {0.5, 0.32, 0.68, 0.2, 0.8}) {
            if (place || (side < 0 && !strong)) break;
            QPointF centre = a + d * share + out * (side * away);
            centre.setX(std::clamp(centre.x(), w / 2 + 2, std::max(w / 2 + 2, width() - w / 2 - 2)));
            centre.setY(std::clamp(centre.y(), h / 2 + 2, std::max(h / 2 + 2, height() - h / 2 - 2)));
            const QRectF box(centre.x() - w / 2 - 3, centre.y() - h / 2, w + 6, h);
            if (!isCovered(box, taken)) place = box;
        }
    }
    if (!place) return;
    taken.push_back(*place);
    for (qsizetype k = 0; k < lines.size(); ++k)
        drawText(painter, {place->center().x(), place->top() + row * (static_cast<double>(k) + 0.5)},
                 lines[k], font, strong ? c.chosen : c.quiet, 0, strong ? c.card : QColor());
}

} // namespace slab::ui
