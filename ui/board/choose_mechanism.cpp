// Mechanisms on the board: what lies under the pointer, and dragging their handles.
#include "core/board/mechanism_moves.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_mechanisms.h"
#include "ui/board/choose_drag.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/paint/paper_view.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <limits>

namespace slab::ui {

/// Handles of the chosen mechanism, the nearest; of those in one place sizes and stops before the place.
ChooseTool::Hit ChooseTool::gripHit(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    Hit hit;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < e.grips.size(); ++i) {
        const BoardGrip& grip = e.grips[i];
        double d = (grip.at - at).norm();
        if (d > m_canvas.reach() || !desk().isGripShown(grip.ref)) continue;
        if (grip.kind == BoardGrip::Kind::place) d += m_canvas.reach() * 0.5;
        if (d >= least) continue;
        least = d;
        hit = {Hit::What::grip, {}, grip.ref.pointer, static_cast<int>(i)};
    }
    return hit;
}

/// Signs, axes and lines; a fan shows how far something turns and is not held.
ChooseTool::Hit ChooseTool::markHit(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    Hit hit;
    double least = m_canvas.reach();
    for (std::size_t i = 0; i < e.marks.size(); ++i) {
        const BoardMark& mark = e.marks[i];
        if (mark.kind == BoardMark::Kind::range || mark.line.empty()) continue;
        double d = (mark.line.front() - at).norm();
        for (std::size_t k = 0; k + 1 < mark.line.size(); ++k) {
            const Vec2 &a = mark.line[k], &b = mark.line[k + 1];
            d = std::min(d, distanceToSegment({at.x(), at.y()}, {a.x(), a.y()}, {b.x(), b.y()}));
        }
        if (mark.line.size() == 1) d -= m_canvas.reach() / 2; // a sign has a size of its own
        if (d >= least) continue;
        least = d;
        hit = {Hit::What::mark, {}, mark.pointer, static_cast<int>(i)};
    }
    return hit;
}

bool ChooseTool::isMechanism(const Hit& hit) const {
    return hit.what == Hit::What::grip || hit.what == Hit::What::mark ||
           ((hit.what == Hit::What::part || hit.what == Hit::What::solid) &&
            hit.edge.starts_with("/mechanisms/"));
}

QString ChooseTool::wordsOfMechanism() const {
    const bool chosen =
        mechanismIn(desk().project(), desk().chosenPart()) == mechanismIn(desk().project(), m_hover.edge);
    if (!chosen) return "Click to choose the mechanism, drag to move it · its formulas stay";
    const auto& grips = desk().scene().of(m_canvas.pointer().view).grips;
    if (m_hover.what == Hit::What::grip && m_hover.index < static_cast<int>(grips.size())) {
        const BoardGrip& grip = grips[static_cast<std::size_t>(m_hover.index)];
        if (grip.kind == BoardGrip::Kind::stop)
            return "Drag to turn the stop, by whole degrees; Alt: by tenths";
        if (grip.kind == BoardGrip::Kind::size) return "Drag to change it · Return types the figures";
    }
    return "Drag to move it, its formulas stay · Return types its figures · Delete";
}

void ChooseTool::chooseMechanism(const Hit& hit, BoardView view) {
    desk().choose({view, {}, {}, -1, -1, -1});
    const BoardElevation& e = desk().scene().of(view);
    const auto index = static_cast<std::size_t>(hit.index);
    const bool shape = hit.what != Hit::What::grip && hit.what != Hit::What::mark && index < e.shapes.size();
    Selection now =
        mechanismSelection(*desk().session(), hit.edge, shape ? e.shapes[index].kind : std::string(),
                           shape ? e.shapes[index].name : std::string());
    // A handle keeps the part in sight that was chosen with its mechanism.
    const Selection& was = desk().session()->selection();
    if (hit.what == Hit::What::grip) now.solid = was.solid, now.plate = was.plate;
    desk().session()->select(now);
}

/// A mechanism is held by its place, wherever it was taken: that is what snaps.
void ChooseTool::beginGrip(BoardView view) {
    const auto& grips = desk().scene().of(view).grips;
    const auto index = static_cast<std::size_t>(std::max(m_pressed.index, 0));
    m_drag->mechanisms = desk().session()->evaluation().mechanisms;
    m_drag->grip = m_pressed.what == Hit::What::grip && index < grips.size()
                       ? grips[index].ref
                       : GripRef{mechanismIn(desk().project(), m_pressed.edge), "at"};
    for (const BoardGrip& grip : grips) {
        if (grip.ref != m_drag->grip) continue;
        m_drag->start = m_pressed.mirrored ? acrossFrom(view, grip.at) : grip.at;
        m_drag->stop = grip.kind == BoardGrip::Kind::stop;
        m_drag->slanted = grip.slanted;
    }
}

void ChooseTool::dragGrip(const BoardPointer& pointer) {
    MoveOptions how;
    how.gesture = m_drag->gesture;
    how.step = m_drag->stop && pointer.keys & Qt::AltModifier ? 0 : m_canvas.step();
    how.drive = pointer.keys & Qt::ControlModifier;
    Vec2 to = pointer.at + m_drag->held;
    if (!m_drag->stop && !m_drag->slanted) {
        SnapOptions options;
        options.anchor = m_drag->start;
        options.off = dragFrom / m_canvas.view().scale;
        const Snap& met = meet(pointer, to, options);
        how.exactRight = met.exactRight;
        how.exactUp = met.exactUp;
        to = met.at;
    }
    Vec2 delta = to - m_drag->start;
    if (m_drag->mirrored) delta = acrossFrom(pointer.view, delta);
    const auto edit = moveGrip(m_drag->base, m_drag->scope, m_drag->mechanisms.get(), pointer.view,
                               m_drag->grip, delta, how);
    m_drag->changed = desk().apply(edit) || m_drag->changed;
}

/// What a click would take, all of the mechanism.
void ChooseTool::paintMechanism(QPainter& painter, const BoardElevation& e) const {
    if (!isMechanism(m_hover)) return;
    const Palette& c = Theme::colours();
    const auto index = static_cast<std::size_t>(std::max(m_hover.index, 0));
    if (m_hover.what == Hit::What::grip && index < e.grips.size()) {
        painter.setPen(QPen(c.chosen, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(m_canvas.pixelOf(e.view, e.grips[index].at), 9, 9);
        return;
    }
    painter.setPen(QPen(Theme::mix(c.chosen, c.card, 0.65), 3, Qt::SolidLine, Qt::RoundCap));
    painter.setBrush(Qt::NoBrush);
    for (const BoardShape& shape : e.shapes) {
        if (shape.pointer != m_hover.edge) continue;
        for (const Ring& ring : shape.rings) {
            QPolygonF line;
            for (const Vec2& p : ring) line << m_canvas.pixelOf(e.view, p);
            painter.drawPolygon(line);
        }
    }
    const auto on = [&](const Vec2& p) { return m_canvas.pixelOf(e.view, p); };
    for (const BoardMark& mark : e.marks)
        if (mark.pointer == m_hover.edge && mark.kind != BoardMark::Kind::range)
            paintMark(painter, mark, on, c.chosen, 2);
}

} // namespace slab::ui
