#include "ui/panels/seam_hand.h"
#include "ui/paint/page_painter.h"
#include "ui/panels/panel_place.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double seamReach = 7, seamDragFrom = 4, seamSnap = 7; // px

} // namespace

SeamHand::SeamHand(Session* session, const PaperView* view, QObject* parent)
    : QObject(parent), m_session(session), m_view(view) {}

void SeamHand::setPanel(const Panel* panel, const std::string& shown) {
    if (!panel || shown != m_shown) m_told.clear(), m_found.reset();
    m_there = panel != nullptr;
    m_shown = shown;
    m_hovered = -1;
    m_seams.clear();
    const Evaluation& e = m_session->evaluation();
    if (!panel || !e.panels) return;
    m_panel = *panel;
    m_box = wholeBox(*e.panels, m_panel);
    if (e.seams) m_seams = seamsOn(m_session->project(), scopeNow(*m_session), *e.seams, *e.panels, m_panel);
}

double SeamHand::step() const {
    return roundStep(1 / m_view->scale, m_session->unitStyle().unit);
}

void SeamHand::arm(bool on) {
    m_armed = on;
    m_told.clear();
    Q_EMIT changed();
}

int SeamHand::chosen() const {
    const QString& part = m_session->selection().part;
    const int entry = part.startsWith(QStringLiteral("/seams/")) ? part.section('/', 2).toInt() : -1;
    for (std::size_t i = 0; i < m_seams.size(); ++i) {
        if (entry >= 0 && m_seams[i].entry == entry) return static_cast<int>(i);
        if (entry < 0 && part.isEmpty() && m_found && m_seams[i].entry < 0 &&
            std::abs(m_seams[i].at - *m_found) < 1e-6)
            return static_cast<int>(i);
    }
    return -1;
}

int SeamHand::seamAt(const QPointF& px) const {
    for (std::size_t i = 0; i < m_seams.size(); ++i)
        for (const auto& [from, to] : m_seams[i].lines)
            if (distanceToSegment(px, m_view->toScreen(from), m_view->toScreen(to)) < seamReach)
                return static_cast<int>(i);
    return -1;
}

void SeamHand::choose(int index) {
    const PanelSeam& seam = m_seams[static_cast<std::size_t>(index)];
    Selection selection;
    selection.plate = QString::fromStdString(m_shown);
    m_found.reset();
    if (seam.entry >= 0)
        selection.part = QStringLiteral("/seams/%1").arg(seam.entry);
    else
        m_found = seam.at;
    m_session->select(selection);
    Q_EMIT changed();
}

bool SeamHand::apply(const Expected<Edit>& edit) {
    m_told.clear();
    if (!edit) {
        m_told = QString::fromStdString(edit.error().message + ' ' + edit.error().remedy);
        Q_EMIT changed();
        return false;
    }
    const Project before = m_session->project();
    return m_session->apply(*edit) && !(m_session->project() == before);
}

void SeamHand::put(double at, double rounded) {
    const auto count = m_session->project().seams.size();
    if (!apply(addSeam(m_session->project(), scopeNow(*m_session), m_panel, at, rounded))) return;
    m_session->settle();
    Selection selection;
    selection.plate = QString::fromStdString(m_shown);
    selection.part = QStringLiteral("/seams/%1").arg(count);
    m_session->select(selection);
}

bool SeamHand::press(const QPointF& at, Qt::KeyboardModifiers) {
    if (!m_there) return false;
    const int index = seamAt(at);
    if (index < 0) {
        m_found.reset();
        return m_armed;
    }
    choose(index);
    m_drag = std::make_unique<Drag>();
    m_drag->seam = m_seams[static_cast<std::size_t>(index)];
    m_drag->from = at;
    m_drag->base = m_session->project();
    m_drag->scope = scopeNow(*m_session);
    m_drag->gesture = "panel seam " + std::to_string(++m_gestures);
    return true;
}

void SeamHand::drag(const QPointF& at, Qt::KeyboardModifiers keys) {
    m_pointer = m_view->toPaper(at);
    if (!m_drag || (!m_drag->moved && (at - m_drag->from).manhattanLength() < seamDragFrom)) return;
    m_drag->moved = true;
    const PanelSeam& seam = m_drag->seam;
    double by = seam.normal.dot(*m_pointer - m_view->toPaper(m_drag->from));
    MoveOptions how;
    how.gesture = m_drag->gesture;
    if (!(keys & Qt::AltModifier)) {
        how.step = step();
        if (std::abs(seam.at + by) * m_view->scale < seamSnap) by = -seam.at; // the panel's middle
    }
    if (!apply(moveSeam(m_drag->base, m_drag->scope, seam, by, how))) return;
    m_drag->changed = true;
    Selection selection;
    selection.plate = QString::fromStdString(m_shown);
    selection.part = QStringLiteral("/seams/%1")
                         .arg(seam.entry >= 0 ? seam.entry : static_cast<int>(m_drag->base.seams.size()));
    m_session->select(selection);
    Q_EMIT changed();
}

void SeamHand::release(const QPointF& at) {
    if (m_drag) {
        m_drag.reset();
        m_session->settle();
    } else if (m_armed) {
        put(seamThrough(m_box, m_view->toPaper(at)).at, step());
    }
    Q_EMIT changed();
}

bool SeamHand::hover(const QPointF& at, Qt::KeyboardModifiers) {
    m_pointer = m_view->toPaper(at);
    const int now = seamAt(at);
    if (now != m_hovered || m_armed) Q_EMIT changed();
    m_hovered = now;
    return now >= 0 || m_armed;
}

void SeamHand::away() {
    m_pointer.reset();
    m_hovered = -1;
    Q_EMIT changed();
}

bool SeamHand::escape() {
    if (m_drag) {
        const bool undo = m_drag->changed;
        m_drag.reset();
        m_session->settle();
        if (undo) m_session->undo();
    } else if (m_armed) {
        arm(false);
    } else if (chosen() >= 0) {
        m_found.reset();
        m_session->selectPlate(QString::fromStdString(m_shown));
    } else {
        return false;
    }
    Q_EMIT changed();
    return true;
}

bool SeamHand::nudge(QKeyEvent& event) {
    const int index = chosen();
    Vec2 by = Vec2::Zero();
    if (event.key() == Qt::Key_Left) by = {-1, 0};
    if (event.key() == Qt::Key_Right) by = {1, 0};
    if (event.key() == Qt::Key_Up) by = {0, 1};
    if (event.key() == Qt::Key_Down) by = {0, -1};
    if (index < 0 || by.isZero()) return false;
    const PanelSeam seam = m_seams[static_cast<std::size_t>(index)];
    const double way = seam.normal.dot(by);
    if (std::abs(way) < 1e-6) return true; // along the seam
    if (!event.isAutoRepeat()) ++m_gestures;
    const double nudged =
        (isInch(m_session->unitStyle()) ? 25.4 / 16 : 1.0) * (event.modifiers() & Qt::ShiftModifier ? 10 : 1);
    MoveOptions how;
    how.gesture = "panel seam nudge " + std::to_string(m_gestures);
    const auto count = m_session->project().seams.size();
    if (!apply(moveSeam(m_session->project(), scopeNow(*m_session), seam, std::copysign(nudged, way), how)))
        return true;
    if (seam.entry < 0) {
        Selection selection;
        selection.plate = QString::fromStdString(m_shown);
        selection.part = QStringLiteral("/seams/%1").arg(count);
        m_session->select(selection);
    }
    return true;
}

void SeamHand::giveBack() {
    if (!apply(giveBackSeam(m_session->project(), m_seams[static_cast<std::size_t>(chosen())]))) return;
    m_session->settle();
    m_session->selectPlate(QString::fromStdString(m_shown));
}

bool SeamHand::key(QKeyEvent& event) {
    if (!m_there) return false;
    switch (event.key()) {
    case Qt::Key_Escape:
        return escape();
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        if (chosen() < 0) return false;
        giveBack();
        return true;
    case Qt::Key_PageDown:
    case Qt::Key_PageUp: {
        if (m_seams.empty()) return false;
        const auto n = static_cast<int>(m_seams.size());
        const int by = event.key() == Qt::Key_PageDown ? 1 : -1;
        choose(chosen() < 0 ? (by > 0 ? 0 : n - 1) : (chosen() + by + n) % n);
        return true;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!m_armed) return false;
        put(0, 0);
        return true;
    default:
        return nudge(event);
    }
}

/// How long the panel is on either side of a seam.
void SeamHand::paintSizes(QPainter& painter, const Vec2& normal, double at) const {
    const Vec2 middle = (m_box.min + m_box.max) / 2, size = m_box.size();
    const double half = (std::abs(normal.x()) * size.x() + std::abs(normal.y()) * size.y()) / 2;
    const Palette& c = Theme::colours();
    const QFont font = Theme::figures(12, true);
    for (const double side : {-1.0, 1.0}) {
        const double length = half - side * at;
        if (length <= 0) continue;
        const QPointF place = m_view->toScreen(middle + normal * (at + side * length / 2));
        drawText(painter, place, QString::fromStdString(printLength(length, m_session->unitStyle())), font,
                 c.chosen, 0, c.card);
    }
}

void SeamHand::paint(QPainter& painter) const {
    if (!m_there) return;
    const Palette& c = Theme::colours();
    const int now = chosen();
    for (std::size_t i = 0; i < m_seams.size(); ++i) {
        const bool isChosen = static_cast<int>(i) == now, hovered = static_cast<int>(i) == m_hovered;
        QPen pen(isChosen || hovered ? c.chosen : c.ink, isChosen ? 3 : 2, Qt::DashDotLine);
        painter.setPen(pen);
        for (const auto& [from, to] : m_seams[i].lines)
            painter.drawLine(m_view->toScreen(from), m_view->toScreen(to));
        if (isChosen) paintSizes(painter, m_seams[i].normal, m_seams[i].at);
    }
    if (!m_armed || !m_pointer || m_hovered >= 0 || m_drag) return;
    const SeamLine line = seamThrough(m_box, *m_pointer);
    const Vec2 along(-line.normal.y(), line.normal.x());
    const double reach = std::abs(along.dot(m_box.size())) / 2 + 10 / m_view->scale;
    const Vec2 foot = (m_box.min + m_box.max) / 2 + line.normal * line.at;
    painter.setPen(QPen(c.chosen, 2, Qt::DashLine));
    painter.drawLine(m_view->toScreen(foot - along * reach), m_view->toScreen(foot + along * reach));
    paintSizes(painter, line.normal, line.at);
}

Qt::CursorShape SeamHand::cursor() const {
    const Vec2 normal = m_hovered >= 0 ? m_seams[static_cast<std::size_t>(m_hovered)].normal
                                       : seamThrough(m_box, m_box.min).normal;
    return std::abs(normal.x()) >= std::abs(normal.y()) ? Qt::SplitHCursor : Qt::SplitVCursor;
}

QString SeamHand::tip() const {
    if (m_hovered < 0) return {};
    return m_seams[static_cast<std::size_t>(m_hovered)].entry >= 0
               ? tr("Your seam: drag to move it, Delete gives it back to the program")
               : tr("Seam found by the program: drag to place it yourself");
}

QString SeamHand::hint() const {
    if (m_drag && m_drag->moved) return tr("Alt: free of rounding and of the middle · Esc: gives up");
    if (m_armed) return tr("Click where the panel is to be cut, or press Return for its middle");
    if (const int now = chosen(); now >= 0)
        return m_seams[static_cast<std::size_t>(now)].entry >= 0
                   ? tr("Your seam: drag it or use the arrows · Delete gives it back to the program")
                   : tr("Seam found by the program: drag it or use the arrows to place it yourself");
    return {};
}

} // namespace slab::ui
