#include "ui/panels/panel_hand.h"
#include "ui/panels/panel_place.h"
#include <QKeyEvent>

namespace slab::ui {

namespace {

constexpr double pullFrom = 4; // px

QString wordsOf(const Error& error) {
    QString words = QString::fromStdString(error.message);
    if (!error.remedy.empty()) words += ' ' + QString::fromStdString(error.remedy);
    return words;
}

} // namespace

PanelHand::PanelHand(Session* session, const PaperView* view, QObject* parent)
    : QObject(parent), m_session(session), m_view(view) {}

void PanelHand::grab(const QPointF& at) {
    m_grip = Grip{at, m_session->project(), scopeNow(*m_session),
                  std::string("panel ") + thing() + " " + std::to_string(++m_gestures)};
}

bool PanelHand::pull(const QPointF& at) {
    m_pointer = m_view->toPaper(at);
    if (!m_grip || (!m_grip->moved && (at - m_grip->from).manhattanLength() < pullFrom)) return false;
    m_grip->moved = true;
    return true;
}

double PanelHand::step() const {
    return roundStep(1 / m_view->scale, m_session->unitStyle().unit);
}

void PanelHand::refuse(const Error& error) {
    m_told = wordsOf(error);
    Q_EMIT changed();
}

bool PanelHand::apply(const Expected<Edit>& edit) {
    m_told.clear();
    if (!edit) {
        refuse(edit.error());
        return false;
    }
    const Project before = m_session->project();
    return m_session->apply(*edit) && !(m_session->project() == before);
}

void PanelHand::chooseEntry(const QString& plate, const QString& part) {
    Selection selection;
    selection.plate = plate;
    selection.part = part;
    m_session->select(selection);
}

void PanelHand::chooseShown() {
    m_session->selectPlate(QString::fromStdString(m_shown));
}

void PanelHand::release(const QPointF& at) {
    if (m_grip) {
        m_grip.reset();
        m_session->settle();
    } else if (inHand()) {
        putAt(m_view->toPaper(at));
    }
    Q_EMIT changed();
}

void PanelHand::away() {
    m_pointer.reset();
    m_hovered = -1;
    Q_EMIT changed();
}

/// First what is in the making, then the tool, then the choice.
bool PanelHand::escape() {
    if (m_grip) {
        const bool undo = m_grip->changed;
        m_grip.reset();
        m_session->settle();
        if (undo) m_session->undo();
        stale();
    } else if (inHand()) {
        putBack();
    } else if (place() >= 0) {
        letGo();
        chooseShown();
    } else {
        return false;
    }
    Q_EMIT changed();
    return true;
}

/// 1 mm or 1/16 in, with Shift ten of them. A key that is held down is one step to undo.
bool PanelHand::arrow(QKeyEvent& event) {
    Vec2 by = Vec2::Zero();
    if (event.key() == Qt::Key_Left) by = {-1, 0};
    if (event.key() == Qt::Key_Right) by = {1, 0};
    if (event.key() == Qt::Key_Up) by = {0, 1};
    if (event.key() == Qt::Key_Down) by = {0, -1};
    if (by.isZero() || place() < 0) return false;
    if (!event.isAutoRepeat()) ++m_gestures;
    by *=
        (isInch(m_session->unitStyle()) ? 25.4 / 16 : 1.0) * (event.modifiers() & Qt::ShiftModifier ? 10 : 1);
    nudge(by, std::string("panel ") + thing() + " nudge " + std::to_string(m_gestures));
    stale();
    Q_EMIT changed();
    return true;
}

bool PanelHand::key(QKeyEvent& event) {
    if (!m_there) return false;
    switch (event.key()) {
    case Qt::Key_Escape:
        return escape();
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        if (place() < 0) return false;
        takeAway();
        stale();
        Q_EMIT changed();
        return true;
    case Qt::Key_PageDown:
    case Qt::Key_PageUp: {
        const int n = count(), by = event.key() == Qt::Key_PageDown ? 1 : -1;
        if (n == 0) return false;
        chooseAt(place() < 0 ? (by > 0 ? 0 : n - 1) : (place() + by + n) % n);
        return true;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return inHand() && putInMiddle();
    default:
        return arrow(event);
    }
}

} // namespace slab::ui
