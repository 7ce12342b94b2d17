#include "ui/panels/seam_hand.h"
#include "ui/paint/page_painter.h"
#include "ui/panels/panel_place.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double seamReach = 7, seamSnap = 7; // px

} // namespace

SeamHand::SeamHand(Session* session, const PaperView* view, QObject* parent)
    : PanelHand(session, view, parent) {}

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

void SeamHand::arm(bool on) {
    m_armed = on;
    m_told.clear();
    Q_EMIT changed();
}

int SeamHand::place() const {
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

void SeamHand::showEntry(std::size_t entry) {
    chooseEntry(QString::fromStdString(m_shown), QStringLiteral("/seams/%1").arg(entry));
}

void SeamHand::chooseAt(int place) {
    const PanelSeam seam = m_seams[static_cast<std::size_t>(place)];
    m_found.reset();
    if (seam.entry < 0) m_found = seam.at;
    chooseEntry(QString::fromStdString(m_shown),
                seam.entry < 0 ? QString() : QStringLiteral("/seams/%1").arg(seam.entry));
    Q_EMIT changed();
}

void SeamHand::put(double at, double rounded) {
    const auto count = m_session->project().seams.size();
    if (!apply(addSeam(m_session->project(), scopeNow(*m_session), m_panel, at, rounded))) return;
    m_session->settle();
    showEntry(count);
}

bool SeamHand::putInMiddle() {
    put(0, 0);
    return true;
}

bool SeamHand::press(const QPointF& at, Qt::KeyboardModifiers) {
    if (!m_there) return false;
    const int index = seamAt(at);
    if (index < 0) {
        m_found.reset();
        return m_armed;
    }
    m_held = m_seams[static_cast<std::size_t>(index)];
    chooseAt(index);
    grab(at);
    return true;
}

void SeamHand::drag(const QPointF& at, Qt::KeyboardModifiers keys) {
    if (!pull(at)) return;
    const PanelSeam seam = m_held;
    double by = seam.normal.dot(*m_pointer - m_view->toPaper(m_grip->from));
    MoveOptions how;
    how.gesture = m_grip->gesture;
    how.step = readable;
    if (!(keys & Qt::AltModifier)) {
        how.step = step();
        if (std::abs(seam.at + by) * m_view->scale < seamSnap) by = -seam.at; // the panel's middle
    }
    if (!apply(moveSeam(m_grip->base, m_grip->scope, seam, by, how))) return;
    m_grip->changed = true;
    showEntry(seam.entry >= 0 ? static_cast<std::size_t>(seam.entry) : m_grip->base.seams.size());
    Q_EMIT changed();
}

bool SeamHand::hover(const QPointF& at, Qt::KeyboardModifiers) {
    m_pointer = m_view->toPaper(at);
    const int now = seamAt(at);
    if (now != m_hovered || m_armed) Q_EMIT changed();
    m_hovered = now;
    return now >= 0 || m_armed;
}

void SeamHand::nudge(const Vec2& by, const std::string& gesture) {
    const PanelSeam seam = m_seams[static_cast<std::size_t>(place())];
    const double way = seam.normal.dot(by);
    if (std::abs(way) < 1e-6) return; // along the seam
    MoveOptions how;
    how.gesture = gesture;
    const auto count = m_session->project().seams.size();
    const double far = std::copysign(by.norm(), way);
    if (!apply(moveSeam(m_session->project(), scopeNow(*m_session), seam, far, how))) return;
    if (seam.entry < 0) showEntry(count);
}

/// The program finds the cut again.
void SeamHand::takeAway() {
    if (!apply(giveBackSeam(m_session->project(), m_seams[static_cast<std::size_t>(place())]))) return;
    m_session->settle();
    chooseShown();
}

/// How long the panel is on either side of a seam, where no other words stand.
void SeamHand::paintSizes(QPainter& painter, const Vec2& normal, double at,
                          std::vector<QRectF>& taken) const {
    const Vec2 middle = (m_box.min + m_box.max) / 2, size = m_box.size();
    const double half = (std::abs(normal.x()) * size.x() + std::abs(normal.y()) * size.y()) / 2;
    const Palette& c = Theme::colours();
    const QFont font = Theme::figures(12, true);
    const QFontMetricsF metrics(font);
    const Vec2 along(-normal.y(), normal.x());
    const double across = std::abs(along.dot(size));
    for (const double side : {-1.0, 1.0}) {
        const double length = half - side * at;
        if (length <= 0) continue;
        const QString words = QString::fromStdString(printLength(length, m_session->unitStyle()));
        QRectF box(0, 0, metrics.horizontalAdvance(words) + 6, metrics.height() + 2);
        for (const double share : {0.0, 0.15, -0.15, 0.3, -0.3, 0.42, -0.42, 0.56, -0.56}) {
            box.moveCenter(
                m_view->toScreen(middle + normal * (at + side * length / 2) + along * (share * across)));
            if (isCovered(box, taken) || !QRectF(painter.viewport()).contains(box)) continue;
            taken.push_back(box);
            drawText(painter, box.center(), words, font, c.chosen, 0, c.card);
            break;
        }
    }
}

void SeamHand::paint(QPainter& painter, std::vector<QRectF>& taken) const {
    if (!m_there) return;
    const bool ghost = m_armed && m_pointer && m_hovered < 0 && !m_grip;
    const Palette& c = Theme::colours();
    const int now = chosen();
    for (std::size_t i = 0; i < m_seams.size(); ++i) {
        const bool isChosen = static_cast<int>(i) == now, hovered = static_cast<int>(i) == m_hovered;
        QPen pen(isChosen || hovered ? c.chosen : c.ink, isChosen ? 3 : 2, Qt::DashDotLine);
        painter.setPen(pen);
        for (const auto& [from, to] : m_seams[i].lines)
            painter.drawLine(m_view->toScreen(from), m_view->toScreen(to));
        if (isChosen && !ghost) paintSizes(painter, m_seams[i].normal, m_seams[i].at, taken);
    }
    if (!ghost) return;
    const SeamLine line = seamThrough(m_box, *m_pointer);
    const Vec2 along(-line.normal.y(), line.normal.x());
    const double reach = std::abs(along.dot(m_box.size())) / 2 + 10 / m_view->scale;
    const Vec2 foot = (m_box.min + m_box.max) / 2 + line.normal * line.at;
    painter.setPen(QPen(c.chosen, 2, Qt::DashLine));
    painter.drawLine(m_view->toScreen(foot - along * reach), m_view->toScreen(foot + along * reach));
    paintSizes(painter, line.normal, line.at, taken);
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
    if (m_grip && m_grip->moved) return tr("Alt: free of rounding and of the middle · Esc: gives up");
    if (m_armed) return tr("Click where the panel is to be cut, or press Return for its middle");
    if (const int now = chosen(); now >= 0)
        return m_seams[static_cast<std::size_t>(now)].entry >= 0
                   ? tr("Your seam: drag it or use the arrows · Delete gives it back to the program")
                   : tr("Seam found by the program: drag it or use the arrows to place it yourself");
    return {};
}

} // namespace slab::ui
