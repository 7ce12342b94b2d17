#include "ui/panels/opening_hand.h"
#include "core/evaluate/stages.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double openingReach = 3, openingSnap = 7; // px

QString worded(const std::string& s) {
    return QString::fromStdString(s);
}

} // namespace

OpeningHand::OpeningHand(Session* session, const PaperView* view, QObject* parent)
    : PanelHand(session, view, parent) {}

void OpeningHand::setPanel(const Panel* panel, const std::string& shown) {
    if (!panel || shown != m_shown) m_told.clear();
    m_there = panel != nullptr;
    if (panel) m_panel = *panel;
    m_shown = shown;
    stale();
}

void OpeningHand::stale() {
    m_place.reset();
    m_hovered = -1;
}

const PanelPlace& OpeningHand::placed() const {
    if (!m_place) m_place = m_there ? panelPlaceOf(*m_session, m_panel, m_shown) : PanelPlace{};
    return *m_place;
}

int OpeningHand::chosen() const {
    const QString& part = m_session->selection().part;
    if (!part.startsWith(QStringLiteral("/openings/"))) return -1;
    const int index = part.section('/', 2).toInt();
    return placed().opening(index) ? index : -1;
}

void OpeningHand::arm(const OpeningKind* kind) {
    m_kind = kind;
    m_told.clear();
    Q_EMIT changed();
}

int OpeningHand::place() const {
    const auto& all = placed().openings;
    const int index = chosen();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].index == index) return static_cast<int>(i);
    return -1;
}

void OpeningHand::chooseAt(int place) {
    choose(placed().openings[static_cast<std::size_t>(place)].index);
}

void OpeningHand::choose(int index) {
    const PanelOpening* opening = placed().opening(index);
    if (!opening) return;
    // In a piece between seams the piece goes on being shown.
    chooseEntry(placed().plates.size() > 1 ? worded(opening->plate) : worded(m_shown),
                QStringLiteral("/openings/%1").arg(index));
}

bool OpeningHand::put(const Vec2& onPanel, double rounded) {
    const PanelPlate* host = placed().at(onPanel);
    if (!host || !m_kind) return false;
    if (!takesOpenings(*host->plate, *m_session->evaluation().body)) {
        refuse({"not-cuttable",
                host->plate->name + " takes no openings.",
                {},
                "Choose a side of the body or a plate form."});
        return false;
    }
    const std::size_t before = m_session->project().openings.size();
    if (!apply(addOpening(m_session->project(), scopeNow(*m_session), *m_kind, *host->plate,
                          host->toFlat(onPanel), OpeningPlace::flat, rounded)))
        return false;
    m_session->settle();
    stale();
    choose(static_cast<int>(before));
    return true;
}

bool OpeningHand::putInMiddle() {
    if (placed().plates.empty()) return false;
    put(placed().plates.front().toPanel(plateMiddle(*placed().plates.front().plate)), 0);
    return true;
}

bool OpeningHand::press(const QPointF& at, Qt::KeyboardModifiers) {
    if (!m_there) return false;
    const Vec2 here = m_view->toPaper(at);
    const PanelOpening* opening = placed().openingAt(here, openingReach / m_view->scale);
    if (!opening) return m_kind != nullptr && placed().at(here) != nullptr;
    const PanelPlate* host = placed().find(opening->plate);
    m_held = {opening->index, *host->plate, host->frame, opening->at,
              host->toPanel(plateMiddle(*host->plate))};
    grab(at);
    choose(opening->index);
    return true;
}

void OpeningHand::drag(const QPointF& at, Qt::KeyboardModifiers keys) {
    if (!pull(at)) return;
    Vec2 by = m_view->toPaper(at) - m_view->toPaper(m_grip->from);
    MoveOptions how;
    how.gesture = m_grip->gesture;
    how.step = readable;
    if (!(keys & Qt::AltModifier)) {
        how.step = step();
        // Into line with the middle of the plate.
        for (int i = 0; i < 2; ++i) {
            const double off = m_held.start[i] + by[i] - m_held.middle[i];
            if (std::abs(off) * m_view->scale < openingSnap) by[i] -= off;
        }
    }
    const Vec3 body = m_held.frame.axes.col(0) * by.x() + m_held.frame.axes.col(1) * by.y();
    if (apply(moveOpening(m_grip->base, m_grip->scope, m_held.index, m_held.plate, body, how)))
        m_grip->changed = true;
    stale();
    Q_EMIT changed();
}

bool OpeningHand::hover(const QPointF& at, Qt::KeyboardModifiers) {
    m_pointer = m_view->toPaper(at);
    const PanelOpening* opening = placed().openingAt(*m_pointer, openingReach / m_view->scale);
    const int now = opening ? opening->index : -1;
    if (now != m_hovered || m_kind) Q_EMIT changed();
    m_hovered = now;
    return now >= 0 || (m_kind && placed().at(*m_pointer));
}

/// Asked when it is drawn: one that was just put in lies under a pointer that has not moved since.
bool OpeningHand::onOpening() const {
    return m_pointer && placed().openingAt(*m_pointer, openingReach / m_view->scale);
}

void OpeningHand::nudge(const Vec2& by, const std::string& gesture) {
    const PanelPlate* host = placed().find(placed().opening(chosen())->plate);
    MoveOptions how;
    how.gesture = gesture;
    const Vec3 body = host->frame.axes.col(0) * by.x() + host->frame.axes.col(1) * by.y();
    apply(moveOpening(m_session->project(), scopeNow(*m_session), chosen(), *host->plate, body, how));
}

void OpeningHand::takeAway() {
    const std::string name = placed().opening(chosen())->name;
    m_session->apply(removeValue("/openings/" + std::to_string(chosen()), "Delete opening " + name));
    m_session->settle();
    chooseShown();
}

Qt::CursorShape OpeningHand::cursor() const {
    return m_hovered >= 0 ? Qt::SizeAllCursor : Qt::CrossCursor;
}

QString OpeningHand::tip() const {
    const PanelOpening* opening = placed().opening(m_hovered);
    return opening ? tr("Opening %1: drag to move it, Delete takes it away").arg(worded(opening->name))
                   : QString();
}

QString OpeningHand::hint() const {
    if (m_grip && m_grip->moved) return tr("Alt: free of rounding and of the middle · Esc: gives up");
    if (m_kind) return tr("Click where the %1 goes, or press Return for the middle").arg(worded(m_kind->key));
    if (chosen() >= 0)
        return tr("Opening %1: drag it or use the arrows · Delete · its sizes are in the table of openings")
            .arg(worded(placed().opening(chosen())->name));
    return {};
}

} // namespace slab::ui
