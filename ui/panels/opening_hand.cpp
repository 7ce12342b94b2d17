#include "ui/panels/opening_hand.h"
#include "core/evaluate/stages.h"
#include <QKeyEvent>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double openingReach = 3, openingDragFrom = 4, openingSnap = 7; // px

QString worded(const std::string& s) {
    return QString::fromStdString(s);
}

} // namespace

OpeningHand::OpeningHand(Session* session, const PaperView* view, QObject* parent)
    : QObject(parent), m_session(session), m_view(view) {}

OpeningHand::~OpeningHand() = default;

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

const PanelPlace& OpeningHand::place() const {
    if (!m_place) m_place = m_there ? panelPlaceOf(*m_session, m_panel, m_shown) : PanelPlace{};
    return *m_place;
}

double OpeningHand::step() const {
    return roundStep(1 / m_view->scale, m_session->unitStyle().unit);
}

int OpeningHand::chosen() const {
    const QString& part = m_session->selection().part;
    if (!part.startsWith(QStringLiteral("/openings/"))) return -1;
    const int index = part.section('/', 2).toInt();
    return place().opening(index) ? index : -1;
}

void OpeningHand::arm(const OpeningKind* kind) {
    m_kind = kind;
    m_told.clear();
    Q_EMIT changed();
}

void OpeningHand::choose(int index) {
    const PanelOpening* opening = place().opening(index);
    if (!opening) return;
    Selection selection;
    // In a piece between seams the piece goes on being shown.
    selection.plate = place().plates.size() > 1 ? worded(opening->plate) : worded(m_shown);
    selection.part = QStringLiteral("/openings/%1").arg(index);
    m_session->select(selection);
}

void OpeningHand::refuse(const Error& error) {
    m_told = worded(error.message);
    if (!error.remedy.empty()) m_told += ' ' + worded(error.remedy);
    Q_EMIT changed();
}

void OpeningHand::apply(const Expected<Edit>& edit, bool settle) {
    if (!edit) return refuse(edit.error());
    m_told.clear();
    m_session->apply(*edit);
    if (settle) m_session->settle();
}

bool OpeningHand::put(const Vec2& onPanel, double rounded) {
    const PanelPlate* on = place().at(onPanel);
    if (!on || !m_kind) return false;
    if (!takesOpenings(*on->plate, *m_session->evaluation().body)) {
        refuse({"not-cuttable",
                on->plate->name + " takes no openings.",
                {},
                "Choose a side of the body or a plate form."});
        return false;
    }
    const auto edit = addOpening(m_session->project(), scopeNow(*m_session), *m_kind, *on->plate,
                                 on->toFlat(onPanel), OpeningPlace::flat, rounded);
    const std::size_t before = m_session->project().openings.size();
    apply(edit, true);
    if (m_session->project().openings.size() == before) return false;
    stale();
    choose(static_cast<int>(before));
    return true;
}

bool OpeningHand::press(const QPointF& at, Qt::KeyboardModifiers) {
    if (!m_there) return false;
    const Vec2 here = m_view->toPaper(at);
    const PanelOpening* opening = place().openingAt(here, openingReach / m_view->scale);
    if (!opening) return m_kind != nullptr && place().at(here) != nullptr;
    const PanelPlate* on = place().find(opening->plate);
    m_drag = std::make_unique<Drag>();
    m_drag->index = opening->index;
    m_drag->from = at;
    m_drag->base = m_session->project();
    m_drag->scope = scopeNow(*m_session);
    m_drag->plate = *on->plate;
    m_drag->frame = on->frame;
    m_drag->start = opening->at;
    m_drag->middle = on->toPanel(plateMiddle(*on->plate));
    m_drag->gesture = "panel opening " + std::to_string(++m_gestures);
    choose(opening->index);
    return true;
}

void OpeningHand::drag(const QPointF& at, Qt::KeyboardModifiers keys) {
    m_pointer = m_view->toPaper(at);
    if (!m_drag) return;
    if (!m_drag->moved && (at - m_drag->from).manhattanLength() < openingDragFrom) return;
    m_drag->moved = true;
    Vec2 by = m_view->toPaper(at) - m_view->toPaper(m_drag->from);
    MoveOptions how;
    how.gesture = m_drag->gesture;
    if (!(keys & Qt::AltModifier)) {
        how.step = step();
        // Into line with the middle of the plate.
        for (int i = 0; i < 2; ++i) {
            const double off = m_drag->start[i] + by[i] - m_drag->middle[i];
            if (std::abs(off) * m_view->scale < openingSnap) by[i] -= off;
        }
    }
    const Vec3 body = m_drag->frame.axes.col(0) * by.x() + m_drag->frame.axes.col(1) * by.y();
    const Project before = m_session->project();
    apply(moveOpening(m_drag->base, m_drag->scope, m_drag->index, m_drag->plate, body, how), false);
    m_drag->changed = m_drag->changed || !(m_session->project() == before);
    stale();
    Q_EMIT changed();
}

void OpeningHand::release(const QPointF& at) {
    if (m_drag) {
        m_drag.reset();
        m_session->settle();
    } else if (m_kind) {
        put(m_view->toPaper(at), step());
    }
    Q_EMIT changed();
}

bool OpeningHand::hover(const QPointF& at, Qt::KeyboardModifiers) {
    m_pointer = m_view->toPaper(at);
    const PanelOpening* opening = place().openingAt(*m_pointer, openingReach / m_view->scale);
    const int now = opening ? opening->index : -1;
    if (now != m_hovered || m_kind) Q_EMIT changed();
    m_hovered = now;
    return now >= 0 || (m_kind && place().at(*m_pointer));
}

void OpeningHand::away() {
    m_pointer.reset();
    m_hovered = -1;
    Q_EMIT changed();
}

bool OpeningHand::nudge(QKeyEvent& event) {
    Vec2 by = Vec2::Zero();
    if (event.key() == Qt::Key_Left) by = {-1, 0};
    if (event.key() == Qt::Key_Right) by = {1, 0};
    if (event.key() == Qt::Key_Up) by = {0, 1};
    if (event.key() == Qt::Key_Down) by = {0, -1};
    const int index = chosen();
    if (by.isZero() || index < 0) return false;
    const PanelPlate* on = place().find(place().opening(index)->plate);
    if (!event.isAutoRepeat()) ++m_gestures;
    by *=
        (isInch(m_session->unitStyle()) ? 25.4 / 16 : 1.0) * (event.modifiers() & Qt::ShiftModifier ? 10 : 1);
    MoveOptions how;
    how.gesture = "panel nudge " + std::to_string(m_gestures);
    const Vec3 body = on->frame.axes.col(0) * by.x() + on->frame.axes.col(1) * by.y();
    apply(moveOpening(m_session->project(), scopeNow(*m_session), index, *on->plate, body, how), false);
    stale();
    Q_EMIT changed();
    return true;
}

void OpeningHand::remove() {
    const int index = chosen();
    const std::string name = place().opening(index)->name;
    m_session->apply(removeValue("/openings/" + std::to_string(index), "Delete opening " + name));
    m_session->settle();
    m_session->selectPlate(worded(m_shown));
    stale();
    Q_EMIT changed();
}

void OpeningHand::next(int by) {
    const auto& all = place().openings;
    if (all.empty()) return;
    const auto n = static_cast<int>(all.size());
    int at = by > 0 ? -1 : n;
    for (int i = 0; i < n; ++i)
        if (all[static_cast<std::size_t>(i)].index == chosen()) at = i;
    choose(all[static_cast<std::size_t>((at + by + n) % n)].index);
}

/// First what is in the making, then the tool, then the choice.
bool OpeningHand::escape() {
    if (m_drag) {
        const bool changedAny = m_drag->changed;
        m_drag.reset();
        m_session->settle();
        if (changedAny) m_session->undo();
        stale();
    } else if (m_kind) {
        arm(nullptr);
    } else if (chosen() >= 0) {
        m_session->selectPlate(worded(m_shown));
    } else {
        return false;
    }
    Q_EMIT changed();
    return true;
}

bool OpeningHand::key(QKeyEvent& event) {
    if (!m_there) return false;
    switch (event.key()) {
    case Qt::Key_Escape:
        return escape();
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        if (chosen() < 0) return false;
        remove();
        return true;
    case Qt::Key_PageDown:
    case Qt::Key_PageUp:
        if (place().openings.empty()) return false;
        next(event.key() == Qt::Key_PageDown ? 1 : -1);
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!m_kind || place().plates.empty()) return false;
        put(place().plates.front().toPanel(plateMiddle(*place().plates.front().plate)), 0);
        return true;
    default:
        return nudge(event);
    }
}

Qt::CursorShape OpeningHand::cursor() const {
    return m_hovered >= 0 ? Qt::SizeAllCursor : Qt::CrossCursor;
}

QString OpeningHand::tip() const {
    const PanelOpening* opening = place().opening(m_hovered);
    return opening ? tr("Opening %1: drag to move it, Delete takes it away").arg(worded(opening->name))
                   : QString();
}

QString OpeningHand::hint() const {
    if (m_drag && m_drag->moved) return tr("Alt: free of rounding and of the middle · Esc: gives up");
    if (m_kind)
        return tr("Click where the %1 goes, or press Return for the middle").arg(worded(m_kind->key));
    if (chosen() >= 0)
        return tr("Opening %1: drag it or use the arrows · Delete · its sizes are in the table of openings")
            .arg(worded(place().opening(chosen())->name));
    return {};
}

} // namespace slab::ui
