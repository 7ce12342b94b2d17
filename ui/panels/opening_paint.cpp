// What the hand shows of openings: the chosen one, the one in the making, and how much of the plate is left.
#include "core/units/units.h"
#include "ui/paint/page_painter.h"
#include "ui/panels/opening_hand.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QPainter>
#include <cmath>

namespace slab::ui {

/// The outline that a click would put in, panel coordinates.
struct OpeningHand::Ghost {
    const PanelPlate* on = nullptr;
    Ring outline;
    Vec2 size = Vec2::Zero();
};

OpeningHand::Ghost OpeningHand::ghostAt(const Vec2& onPanel) const {
    Ghost out;
    out.on = placed().at(onPanel);
    const auto& body = m_session->evaluation().body;
    if (!out.on || !m_kind || !body || !takesOpenings(*out.on->plate, *body)) return {};
    // Made as the document would have it, so that what is seen is what comes.
    const auto edit = addOpening(m_session->project(), scopeNow(*m_session), *m_kind, *out.on->plate,
                                 out.on->toFlat(onPanel), OpeningPlace::flat, step());
    if (!edit) return {};
    const auto made = edit->apply(m_session->project());
    if (!made) return {};
    out.size = openingSize(m_session->project(), *m_kind, *out.on->plate);
    const int index = static_cast<int>(made->openings.size()) - 1;
    for (const FlatOpening& flat : openingsOn(*out.on->plate, *body, *made, scopeNow(*m_session)))
        if (flat.index == index)
            for (const Vec2& p : flat.outline) out.outline.push_back(out.on->toPanel(p));
    return out;
}

void OpeningHand::paintRoom(QPainter& painter, const PanelPlate& on, const Ring& outline,
                            const std::string& opening, std::vector<QRectF>& taken) const {
    const Palette& c = Theme::colours();
    const auto& stock = m_session->evaluation().stock;
    Ring flat;
    for (const Vec2& p : outline) flat.push_back(on.toFlat(p));
    const EdgeRoom room = edgeRoom(*on.plate, stock ? stock->find(on.plate->stock) : nullptr, flat, opening);
    const bool near = room.left < room.wanted - 1e-6;
    const UnitStyle units = m_session->unitStyle();
    const auto figure = [&](double mm) { return QString::fromStdString(printLength(mm, units)); };
    const QString to =
        room.other.empty() ? tr("to the edge") : tr("to %1").arg(QString::fromStdString(room.other));
    QString words = room.through && room.other.empty() ? tr("open through the edge")
                                                       : tr("%1 %2").arg(figure(room.left), to);
    if (near && !(room.through && room.other.empty())) words += tr(" · %1 wanted").arg(figure(room.wanted));
    const QFont font = Theme::words(12, true);
    const double half = QFontMetricsF(font).horizontalAdvance(words) / 2 + 6;
    const QRectF box = m_view->toScreen(bounds(outline));
    const QRectF clip = painter.viewport();
    // Below it, above it, in it: where no other words stand.
    const auto placed = [&](double y) {
        const QPointF at(std::clamp(box.center().x(), half, std::max(half, clip.width() - half)),
                         std::clamp(y, 10.0, std::max(10.0, clip.height() - 10)));
        return QRectF(at.x() - half, at.y() - 9, 2 * half, 18);
    };
    QRectF place = placed(box.bottom() + 12);
    for (double off = 12; isCovered(place, taken) && off < clip.height(); off += 10)
        for (const double y : {box.bottom() + off, box.top() - off, box.bottom() - off, box.top() + off})
            if (const QRectF one = placed(y); isCovered(place, taken)) place = one;
    taken.push_back(place);
    QColor back = c.card;
    back.setAlphaF(0.92F);
    painter.setPen(QPen(near ? c.tight : c.line, 1));
    painter.setBrush(back);
    painter.drawRoundedRect(place, 5, 5);
    drawText(painter, place.center(), words, font, c.ink);
}

void OpeningHand::paintOpening(QPainter& painter, const PanelOpening& opening,
                               std::vector<QRectF>& taken) const {
    const Palette& c = Theme::colours();
    const bool isChosen = opening.index == chosen();
    QColor fill = c.chosen;
    fill.setAlphaF(isChosen ? 0.16F : 0.08F);
    painter.setBrush(fill);
    painter.setPen(QPen(Theme::mix(c.chosen, c.card, isChosen ? 1 : 0.6), isChosen ? 2 : 1.4));
    painter.drawPolygon(m_view->ring(opening.outline));
    if (!isChosen) return;
    const PanelPlate* on = placed().find(opening.plate);
    if (!on) return;
    if (m_grip && m_grip->moved) {
        // In line with the middle of the plate.
        const Vec2 middle = on->toPanel(plateMiddle(*on->plate));
        const QPointF m = m_view->toScreen(middle);
        painter.setPen(QPen(c.chosen, 1, Qt::DotLine));
        const QRectF view = painter.viewport();
        if (std::abs(opening.at.x() - middle.x()) < 1e-6)
            painter.drawLine(QPointF(m.x(), 0), QPointF(m.x(), view.height()));
        if (std::abs(opening.at.y() - middle.y()) < 1e-6)
            painter.drawLine(QPointF(0, m.y()), QPointF(view.width(), m.y()));
    }
    paintRoom(painter, *on, opening.outline, opening.name, taken);
}

void OpeningHand::paint(QPainter& painter, std::vector<QRectF>& taken) const {
    if (!m_there) return;
    const QString& part = m_session->selection().part;
    const bool any = m_hovered >= 0 || m_grip || part.startsWith(QStringLiteral("/openings/"));
    if (any)
        for (const PanelOpening& opening : placed().openings)
            if (opening.index == m_hovered || opening.index == chosen())
                paintOpening(painter, opening, taken);
    if (!m_kind || !m_pointer || m_hovered >= 0 || m_grip || onOpening()) return;
    const Ghost ghost = ghostAt(*m_pointer);
    if (ghost.outline.size() < 3) return;
    QColor fill = Theme::colours().chosen;
    fill.setAlphaF(0.12F);
    painter.setBrush(fill);
    painter.setPen(QPen(Theme::colours().chosen, 1.4, Qt::DashLine));
    painter.drawPolygon(m_view->ring(ghost.outline));
    paintRoom(painter, *ghost.on, ghost.outline, {}, taken);
}

} // namespace slab::ui
