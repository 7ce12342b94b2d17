#include "ui/board/mechanism_tool.h"
#include "ui/board/board_canvas.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/theme/theme.h"
#include <QPainter>

namespace slab::ui {

QString MechanismTool::words() const {
    return QString::fromStdString(m_kind.where) + " · Alt: free of snapping · Esc: gives up";
}

BoardPrompt MechanismTool::prompt() const {
    return {QString::fromStdString(m_kind.where)};
}

Vec2 MechanismTool::met(const BoardPointer& pointer) {
    return meet(pointer, pointer.at, {}).at;
}

void MechanismTool::move(const BoardPointer& pointer) {
    m_view = pointer.view;
    m_at = met(pointer);
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
    Session& session = *desk().session();
    MechanismStart start{m_kind.kind, spotSeen(session.evaluation(), view, at)};
    start.step = step;
    if (!putMechanism(session, start)) return;
    if (!desk().isShown("mechanism"))
        Q_EMIT desk().told("Mechanisms are hidden on the board: Show, Mechanisms brings them back.");
    Q_EMIT m_canvas.toolDone(); // one is enough
}

bool MechanismTool::cancel() {
    meetNothing();
    return false;
}

void MechanismTool::paint(QPainter& painter) const {
    if (!m_at) return;
    const QPointF at = m_canvas.pixelOf(m_view, *m_at);
    constexpr double arm = 9;
    painter.setPen(QPen(Theme::colours().chosen, 2));
    painter.drawLine(at - QPointF(arm, 0), at + QPointF(arm, 0));
    painter.drawLine(at - QPointF(0, arm), at + QPointF(0, arm));
    painter.drawEllipse(at, arm / 2, arm / 2);
}

} // namespace slab::ui
