#include "ui/board/frame_tool.h"
#include "core/board/part_edits.h"
#include "ui/board/board_canvas.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double stretchFrom = 8; // px

QString frameWord(const std::string& axis) {
    return axis == "x" ? "a bulkhead across" : axis == "y" ? "a lengthwise rib" : "a shelf";
}

} // namespace

QString FrameTool::words() const {
    return "Click where a frame stands, or drag in the direction that it runs · Alt: free of snapping · Esc: "
           "done";
}

BoardPrompt FrameTool::prompt() const {
    if (!m_at) return {"Click where a frame stands, or drag in its direction"};
    return {QString("Click for %1, or drag in its direction").arg(frameWord(axis()))};
}

std::string FrameTool::axis() const {
    return frameAxis(m_view, m_stretch);
}

SnapOptions FrameTool::options() const {
    SnapOptions options;
    options.edges = false; // a frame goes through them
    return options;
}

void FrameTool::press(const BoardPointer& pointer) {
    m_view = pointer.view;
    m_pressed = pointer.px;
    m_stretch = Vec2::Zero();
    m_from = m_at = met(pointer);
}

void FrameTool::move(const BoardPointer& pointer) {
    m_stretch = Vec2::Zero();
    PlacingTool::move(pointer);
}

void FrameTool::drag(const BoardPointer& pointer) {
    if (!m_from) return;
    const QPointF by = pointer.px - m_pressed;
    m_stretch = std::hypot(by.x(), by.y()) < stretchFrom ? Vec2(Vec2::Zero()) : Vec2(by.x(), -by.y());
}

void FrameTool::release(const BoardPointer&) {
    if (!m_from) return;
    const Vec2 at = *m_from;
    const int field = axis() == axisOf(m_view, 0) ? 0 : 1;
    const bool exact = field == 0 ? m_snap.exactRight : m_snap.exactUp;
    m_from.reset();
    put(m_view, axis(), at, exact ? readable : m_canvas.step());
    m_stretch = Vec2::Zero();
}

void FrameTool::place(BoardView view, const Vec2& at) {
    put(view, frameAxis(view, Vec2::Zero()), at, 0);
}

void FrameTool::put(BoardView view, const std::string& along, const Vec2& at, double step) {
    const auto count = desk().project().frames.size();
    if (!desk().apply(addFrame(desk().project(), desk().scope(), view, along, at, step))) return;
    desk().session()->settle();
    if (!desk().isShown("frame"))
        Q_EMIT desk().told("Frames are hidden on the board: Show, Frames brings them back.");
    Selection selection;
    selection.part = QStringLiteral("/frames/%1").arg(count);
    desk().session()->select(selection);
}

bool FrameTool::cancel() {
    const bool any = m_from.has_value();
    m_from.reset();
    m_stretch = Vec2::Zero();
    return PlacingTool::cancel() || any;
}

void FrameTool::paint(QPainter& painter) const {
    if (!m_at) return;
    const Box2& box = desk().scene().of(m_view).bounds;
    Vec2 from = m_from ? *m_from : *m_at, to = from;
    const int along = axis() == axisOf(m_view, 0) ? 1 : 0; // the line runs along the other axis
    from[along] = box.min[along];
    to[along] = box.max[along];
    painter.setPen(QPen(Theme::colours().chosen, 2, Qt::DashLine));
    painter.drawLine(m_canvas.pixelOf(m_view, from), m_canvas.pixelOf(m_view, to));
}

} // namespace slab::ui
