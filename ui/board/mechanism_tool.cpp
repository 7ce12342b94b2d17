#include "ui/board/mechanism_tool.h"
#include "core/board/mechanism_moves.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_mechanisms.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/theme/theme.h"
#include <QPainter>

namespace slab::ui {

QString MechanismTool::words() const {
    return QString::fromStdString(m_kind.where) + " · Alt: free of snapping · Esc: gives up";
}

BoardPrompt MechanismTool::prompt() const {
    return {m_refused.isEmpty() ? QString::fromStdString(m_kind.where) : m_refused};
}

MechanismStart MechanismTool::startAt(BoardView view, const Vec2& at, double step) const {
    MechanismStart start{m_kind.kind, spotSeen(desk().session()->evaluation(), view, at)};
    start.step = step;
    return start;
}

void MechanismTool::move(const BoardPointer& pointer) {
    PlacingTool::move(pointer);
    m_planned = {};
    m_refused.clear();
    MechanismStart start = startAt(m_view, *m_at, m_canvas.step());
    start.quick = true;
    const Session& session = *desk().session();
    const auto edit = addMechanism(session.project(), desk().scope(), session.evaluation(), start);
    if (!edit) m_refused = QString::fromStdString(edit.error().message);
    const auto made = edit ? edit->apply(session.project()) : Expected<Project>(Unexpected(Error{}));
    if (!made) return;
    const std::string entry = newestMechanism(*made, m_kind.kind);
    for (const BoardView view : boardViews)
        m_planned[static_cast<std::size_t>(view)] = plannedMarks(*made, desk().scope(), view, entry);
}

void MechanismTool::release(const BoardPointer& pointer) {
    const Vec2 at = met(pointer);
    put(pointer.view, at, m_snap.exactRight || m_snap.exactUp ? 0 : m_canvas.step());
}

void MechanismTool::place(BoardView view, const Vec2& at) {
    put(view, at, 0);
}

/// A refusal is told by the window, and the tool stays in hand.
void MechanismTool::put(BoardView view, const Vec2& at, double step) {
    if (!putMechanism(*desk().session(), startAt(view, at, step))) return;
    if (!desk().isShown("mechanism"))
        Q_EMIT desk().told("Mechanisms are hidden on the board: Show, Mechanisms brings them back.");
    Q_EMIT m_canvas.toolDone(); // one is enough
}

void MechanismTool::paint(QPainter& painter) const {
    if (!m_at) return;
    const Palette& c = Theme::colours();
    for (const BoardView view : boardViews) {
        const auto on = [&](const Vec2& p) { return m_canvas.pixelOf(view, p); };
        for (const BoardMark& mark : m_planned[static_cast<std::size_t>(view)])
            paintMark(painter, mark, on, c.chosen, mark.kind == BoardMark::Kind::outline ? 2 : 1.2);
    }
    const QPointF at = m_canvas.pixelOf(m_view, *m_at);
    constexpr double arm = 9;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(m_refused.isEmpty() ? c.chosen : c.tight, 2));
    painter.drawLine(at - QPointF(arm, 0), at + QPointF(arm, 0));
    painter.drawLine(at - QPointF(0, arm), at + QPointF(0, arm));
    painter.drawEllipse(at, arm / 2, arm / 2);
}

} // namespace slab::ui
