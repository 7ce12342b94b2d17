// Frames and openings on the board: what lies under the pointer, and dragging it.
#include "core/board/mechanism_moves.h"
#include "core/board/part_edits.h"
#include "ui/board/board_canvas.h"
#include "ui/board/choose_drag.h"
#include "ui/paint/paper_view.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <limits>

namespace slab::ui {

namespace {

double toLine(const Ring& ring, const Vec2& at) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        least = std::min(least, distanceToSegment({at.x(), at.y()}, {a.x(), a.y()}, {b.x(), b.y()}));
    }
    return least;
}

} // namespace

/// A frame by its line, an opening or a part of a mechanism by its outline.
ChooseTool::Hit ChooseTool::partHit(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    Hit hit;
    double least = m_canvas.reach();
    for (std::size_t i = 0; i < e.shapes.size(); ++i) {
        const BoardShape& shape = e.shapes[i];
        if (shape.pointer.empty()) continue;
        for (const Ring& ring : shape.rings) {
            const double d = toLine(ring, at);
            if (d >= least) continue;
            least = d;
            hit = {Hit::What::part, {}, shape.pointer, static_cast<int>(i), shape.mirrored};
        }
    }
    return hit;
}

/// Inside its outline only what is chosen already, so that a box can be drawn over a large one.
ChooseTool::Hit ChooseTool::withinPart(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    const std::string part = desk().chosenPart(), own = mechanismIn(desk().project(), part);
    for (std::size_t i = 0; i < e.shapes.size() && !part.empty(); ++i) {
        const BoardShape& shape = e.shapes[i];
        if (shape.pointer != (own.empty() ? part : own)) continue;
        for (const Ring& ring : shape.rings)
            if (ring.size() > 2 && contains(ring, at))
                return {Hit::What::part, {}, shape.pointer, static_cast<int>(i), shape.mirrored};
    }
    return {};
}

void ChooseTool::choosePart(const Hit& hit, BoardView view) {
    desk().choose({view, {}, {}, -1, -1, -1});
    Selection selection;
    selection.part = QString::fromStdString(hit.edge);
    desk().session()->select(selection);
}

/// A frame is held where it was taken, an opening by its middle: that is what snaps.
void ChooseTool::beginPart(BoardView view) {
    m_drag->part = m_pressed.edge;
    m_drag->plates = desk().session()->evaluation().plates;
    const auto& shapes = desk().scene().of(view).shapes;
    if (m_pressed.index >= static_cast<int>(shapes.size())) return;
    const auto& rings = shapes[static_cast<std::size_t>(m_pressed.index)].rings;
    if (rings.empty() || rings.front().empty()) return;
    const Ring& ring = rings.front();
    if (ring.size() > 2) {
        const Box2 box = bounds(ring);
        m_drag->start = (box.min + box.max) / 2;
        return;
    }
    const Vec2 along = (ring.back() - ring.front()).normalized();
    m_drag->start = ring.front() + along * along.dot(m_from.at - ring.front());
}

void ChooseTool::dragPart(const BoardPointer& pointer) {
    const bool frame = m_drag->part.starts_with("/frames/");
    SnapOptions options;
    options.anchor = m_drag->start;
    options.off = dragFrom / m_canvas.view().scale;
    options.edges = false; // frames go through them, openings lie between them
    const Snap& met = meet(pointer, pointer.at + m_drag->held, options);
    MoveOptions how;
    how.gesture = m_drag->gesture;
    how.step = pointer.keys & Qt::AltModifier ? readable : m_canvas.step();
    if (frame) {
        const auto index = static_cast<std::size_t>(std::stoi(m_drag->part.substr(8)));
        const Vec2 way = frameWay(m_drag->base.frames[index], m_drag->scope, pointer.view);
        const bool right = std::abs(way.x()) > std::abs(way.y());
        how.exactRight = right && met.exactRight;
        how.exactUp = !right && met.exactUp;
    }
    const auto edit = movePart(m_drag->base, m_drag->scope, pointer.view, m_drag->part,
                               met.at - m_drag->start, m_drag->plates.get(), how);
    m_drag->changed = desk().apply(edit) || m_drag->changed;
}

void ChooseTool::paintPart(QPainter& painter, const BoardElevation& e) const {
    if (m_hover.what != Hit::What::part || isMechanism(m_hover) ||
        m_hover.index >= static_cast<int>(e.shapes.size()))
        return;
    painter.setPen(QPen(Theme::mix(Theme::colours().chosen, Theme::colours().card, 0.65), 3, Qt::SolidLine,
                        Qt::RoundCap));
    painter.setBrush(Qt::NoBrush);
    for (const Ring& ring : e.shapes[static_cast<std::size_t>(m_hover.index)].rings) {
        QPolygonF line;
        for (const Vec2& p : ring) line << m_canvas.pixelOf(e.view, p);
        painter.drawPolygon(line);
    }
}

} // namespace slab::ui
