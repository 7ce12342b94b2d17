#include "ui/board/choose_tool.h"
#include "core/board/moves.h"
#include "core/picture/edits.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/picture_layer.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>
#include <limits>

namespace slab::ui {

namespace {

constexpr double dragFrom = 4; // px

bool shown(const BoardPoint& point, int form) {
    if (point.mirrored || point.knobs.empty()) return false;
    return point.form == form || point.ref.handle == Handle::corner;
}

} // namespace

/// A drag is worked out anew from where it began, so that nothing adds up.
struct ChooseTool::Drag {
    Project base;
    Scope scope;
    std::vector<PointRef> refs;
    std::vector<std::string> edges; ///< moved as a whole
    Vec2 start = Vec2::Zero();      ///< of what is held, in the view
    Vec2 held = Vec2::Zero();       ///< from the pointer to it
    std::string gesture;
    int picture = -1; ///< moved instead of points
    bool changed = false;
};

ChooseTool::ChooseTool(BoardCanvas& canvas) : BoardTool(canvas) {}
ChooseTool::~ChooseTool() = default;

QString ChooseTool::words() const {
    if (m_drag)
        return "Alt: free of snapping · Ctrl: changes the dimension behind a coordinate · Esc: gives up";
    switch (m_hover.what) {
    case Hit::What::point:
        return "Drag to move · Shift and click for several · Return types its figures";
    case Hit::What::edge:
        return "Drag to move the edge · double click puts a point in";
    case Hit::What::dimension:
        return "Click to type its distance";
    default:
        return desk().choice().empty()
                   ? "Click a point or an edge; drag a box round several"
                   : "Arrows move what is chosen, Shift tenfold · Delete · Esc: choose nothing";
    }
}

ChooseTool::Hit ChooseTool::hitAt(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    const int form = desk().chosenForm();
    Hit hit;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < e.points.size(); ++i) {
        const BoardPoint& p = e.points[i];
        if (!shown(p, form)) continue;
        double d = (p.at - at).norm();
        if (d > m_canvas.reach()) continue;
        // Of points in one place the chosen form's comes first, and corners before sizes and places.
        if (p.form != form) d += m_canvas.reach() * 2;
        if (p.ref.handle != Handle::corner) d += m_canvas.reach() * 0.5;
        if (d >= least) continue;
        least = d;
        hit = {Hit::What::point, p.ref, {}, static_cast<int>(i)};
    }
    if (hit.what == Hit::What::point) return hit;
    BoardElevation lines = e;
    lines.points.clear();
    const Picked picked = nearest(lines, at, m_canvas.reach());
    const auto index = static_cast<std::size_t>(std::max(picked.index, 0));
    if (picked.what == Picked::What::edge && !e.edges[index].pointer.empty())
        return {Hit::What::edge, {}, e.edges[index].pointer, picked.index};
    if (picked.what == Picked::What::dimension) return {Hit::What::dimension, {}, {}, picked.index};
    if (picked.what == Picked::What::shape && e.shapes[index].kind == "donor")
        return {Hit::What::solid, {}, {}, picked.index};
    const int picture = m_canvas.pictures().pictureAt(view, at);
    if (picture >= 0) return {Hit::What::picture, {}, {}, picture};
    return {};
}

void ChooseTool::choose(const Hit& hit, const BoardPointer& pointer, bool more) {
    BoardChoice choice = desk().choice();
    if (!more || choice.view != pointer.view) choice = {pointer.view, {}, {}, -1, -1};
    choice.dimension = choice.picture = -1;
    const auto toggle = [&](auto& list, const auto& one) {
        const auto at = std::find(list.begin(), list.end(), one);
        if (at == list.end())
            list.push_back(one);
        else
            list.erase(at);
    };
    const BoardElevation& e = desk().scene().of(pointer.view);
    if (hit.what == Hit::What::point) toggle(choice.points, hit.point);
    if (hit.what == Hit::What::edge) toggle(choice.edges, hit.edge);
    if (hit.what == Hit::What::dimension)
        choice.dimension = e.dimensions[static_cast<std::size_t>(hit.index)].index;
    if (hit.what == Hit::What::picture) choice.picture = hit.index;
    if (hit.what == Hit::What::solid && hit.index >= 0) {
        Selection selection;
        selection.solid = QString::fromStdString(e.shapes[static_cast<std::size_t>(hit.index)].name);
        desk().session()->select(selection);
    }
    desk().choose(std::move(choice));
}

void ChooseTool::press(const BoardPointer& pointer) {
    m_from = pointer;
    m_pressed = hitAt(pointer.view, pointer.at);
    m_more = pointer.keys & Qt::ShiftModifier;
    const bool sameView = desk().choice().view == pointer.view;
    m_wasChosen =
        sameView && ((m_pressed.what == Hit::What::point && desk().isChosen(m_pressed.point)) ||
                     (m_pressed.what == Hit::What::edge && desk().isEdgeChosen(m_pressed.edge)) ||
                     (m_pressed.what == Hit::What::picture && desk().choice().picture == m_pressed.index));
    // What is chosen already is only let go when the button comes up again without a drag; a picture lies
    // under everything and is chosen by a click alone, so that a box can be drawn over it.
    if (m_pressed.what != Hit::What::nothing && m_pressed.what != Hit::What::picture && !m_wasChosen)
        choose(m_pressed, pointer, m_more);
}

void ChooseTool::move(const BoardPointer& pointer) {
    m_hover = hitAt(pointer.view, pointer.at);
}

void ChooseTool::begin(const BoardPointer& pointer) {
    m_drag = std::make_unique<Drag>();
    m_drag->base = desk().project();
    m_drag->scope = desk().scope();
    m_drag->refs = desk().chosenPoints();
    m_drag->start = m_from.at;
    m_drag->gesture = "board drag " + std::to_string(++m_gestures);
    if (m_pressed.what == Hit::What::point) {
        if (const BoardPoint* p = find(desk().scene(), pointer.view, m_pressed.point)) m_drag->start = p->at;
    } else if (m_pressed.what == Hit::What::edge && desk().choice().edges.size() == 1 &&
               desk().choice().points.empty()) {
        m_drag->edges = desk().choice().edges;
    }
    if (m_pressed.what == Hit::What::picture) m_drag->picture = m_pressed.index;
    m_drag->held = m_drag->start - m_from.at;
    desk().hold(true);
}

void ChooseTool::drag(const BoardPointer& pointer) {
    if (!m_drag && !m_band) {
        if ((pointer.px - m_from.px).manhattanLength() < dragFrom) return;
        const bool picture = m_pressed.what == Hit::What::picture && m_wasChosen;
        if (m_pressed.what == Hit::What::point || m_pressed.what == Hit::What::edge || picture)
            begin(pointer);
        else
            m_band = Box2{m_from.at, m_from.at};
    }
    if (m_band) {
        m_band = Box2{m_from.at.cwiseMin(pointer.at), m_from.at.cwiseMax(pointer.at)};
        return;
    }
    SnapOptions options;
    options.moving = m_drag->refs;
    options.anchor = m_drag->start;
    const Snap& met = meet(pointer, pointer.at + m_drag->held, options);
    MoveOptions how;
    how.step = m_canvas.step();
    how.exactRight = met.exactRight;
    how.exactUp = met.exactUp;
    how.drive = pointer.keys & Qt::ControlModifier;
    how.gesture = m_drag->gesture;
    const Vec2 delta = met.at - m_drag->start;
    if (m_drag->picture >= 0) {
        // Worked out from where it began: the edit is made on the document as it was then.
        Edit moved = movePicture(m_drag->picture, delta, desk().scene().scale, m_drag->gesture);
        moved.apply = [base = m_drag->base, apply = std::move(moved.apply)](const Project&) {
            return apply(base);
        };
        m_drag->changed = desk().apply(std::move(moved)) || m_drag->changed;
        return;
    }
    const auto edit = m_drag->edges.empty()
                          ? movePoints(m_drag->base, m_drag->scope, pointer.view, m_drag->refs, delta, how)
                          : moveEdge(m_drag->base, m_drag->scope, pointer.view, m_drag->edges.front(), delta,
                                     pointer.keys & Qt::ControlModifier, how);
    m_drag->changed = desk().apply(edit) || m_drag->changed;
}

void ChooseTool::release(const BoardPointer& pointer) {
    meetNothing();
    if (m_drag) {
        desk().session()->settle();
        m_drag.reset();
        desk().hold(false);
    } else if (m_band) {
        BoardChoice choice = m_more && desk().choice().view == pointer.view
                                 ? desk().choice()
                                 : BoardChoice{pointer.view, {}, {}, -1, -1};
        for (const PointRef& ref : inside(desk().scene().of(pointer.view), *m_band)) {
            const BoardPoint* p = find(desk().scene(), pointer.view, ref);
            if (p && ref.handle == Handle::corner && shown(*p, desk().chosenForm()) &&
                std::find(choice.points.begin(), choice.points.end(), ref) == choice.points.end())
                choice.points.push_back(ref);
        }
        m_band.reset();
        desk().choose(std::move(choice));
    } else if (m_pressed.what == Hit::What::picture) {
        choose(m_pressed, pointer, false);
    } else if (m_pressed.what == Hit::What::nothing && !m_more) {
        desk().chooseNone();
        desk().session()->select({});
    } else if (m_wasChosen) {
        choose(m_pressed, pointer, m_more);
    }
    m_hover = hitAt(pointer.view, pointer.at);
}

void ChooseTool::doubleClick(const BoardPointer& pointer) {
    const Hit hit = hitAt(pointer.view, pointer.at);
    m_pressed = {Hit::What::solid, {}, {}, -1}; // the second release must not take the choice away
    m_wasChosen = false;
    m_from = pointer;
    if (hit.what == Hit::What::edge)
        insertAt(desk(), pointer.view, hit.edge, pointer.at, m_canvas.step());
    else if (hit.what == Hit::What::point || hit.what == Hit::What::dimension)
        Q_EMIT m_canvas.entryWanted({});
    else
        m_canvas.fit();
}

bool ChooseTool::arrowKey(QKeyEvent& event) {
    Vec2 by = Vec2::Zero();
    if (event.key() == Qt::Key_Left) by = {-1, 0};
    if (event.key() == Qt::Key_Right) by = {1, 0};
    if (event.key() == Qt::Key_Up) by = {0, 1};
    if (event.key() == Qt::Key_Down) by = {0, -1};
    if (by.isZero()) return false;
    if (desk().chosenPoints().empty()) {
        PaperView view = m_canvas.view();
        view.origin += QPointF(-by.x(), by.y()) * 60;
        m_canvas.setPaper(view);
        return true;
    }
    if (!event.isAutoRepeat()) ++m_gestures;
    by *= nudgeStep(desk().scene().units) * (event.modifiers() & Qt::ShiftModifier ? 10 : 1);
    nudgeChosen(desk(), by, "board nudge " + std::to_string(m_gestures));
    return true;
}

bool ChooseTool::key(QKeyEvent& event) {
    if (arrowKey(event)) return true;
    const bool control = event.modifiers() & Qt::ControlModifier;
    switch (event.key()) {
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        removeChosen(desk());
        return true;
    case Qt::Key_Insert:
        insertInChosen(desk());
        return true;
    case Qt::Key_PageDown:
    case Qt::Key_PageUp:
        chooseNext(desk(), event.key() == Qt::Key_PageDown ? 1 : -1);
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        Q_EMIT m_canvas.entryWanted({});
        return true;
    case Qt::Key_A:
        if (!control) return false;
        chooseAll(desk());
        return true;
    case Qt::Key_D:
        if (!control) return false;
        duplicateChosen(desk());
        return true;
    default:
        return false;
    }
}

bool ChooseTool::cancel() {
    if (m_drag) {
        const bool changed = m_drag->changed;
        m_drag.reset();
        meetNothing();
        desk().session()->settle();
        if (changed) desk().session()->undo();
        desk().hold(false);
        m_pressed = {Hit::What::solid, {}, {}, -1};
        return true;
    }
    if (m_band) {
        m_band.reset();
        return true;
    }
    if (desk().choice().empty() && desk().session()->selection() == Selection{}) return false;
    desk().chooseNone();
    desk().session()->select({});
    return true;
}

void ChooseTool::paint(QPainter& painter) const {
    const Palette& c = Theme::colours();
    if (m_band) {
        QColor fill = c.chosen;
        fill.setAlphaF(0.10F);
        painter.setBrush(fill);
        painter.setPen(QPen(c.chosen, 1, Qt::DashLine));
        painter.drawRect(
            QRectF(m_canvas.pixelOf(m_from.view, m_band->min), m_canvas.pixelOf(m_from.view, m_band->max))
                .normalized());
    }
    if (m_drag || m_band) return;
    const BoardView view = m_canvas.pointer().view;
    const BoardElevation& e = desk().scene().of(view);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.chosen, 2));
    const auto index = static_cast<std::size_t>(std::max(m_hover.index, 0));
    if (m_hover.what == Hit::What::point && index < e.points.size())
        painter.drawEllipse(m_canvas.pixelOf(view, e.points[index].at), 8, 8);
    if (m_hover.what == Hit::What::edge && index < e.edges.size()) {
        QPolygonF line;
        const BoardEdge& edge = e.edges[index];
        for (const Vec2& p : edge.facets.empty() ? edge.line : edge.facets) line << m_canvas.pixelOf(view, p);
        painter.setPen(QPen(Theme::mix(c.chosen, c.card, 0.65), 4, Qt::SolidLine, Qt::RoundCap));
        painter.drawPolyline(line);
    }
}

Qt::CursorShape ChooseTool::cursor(const BoardPointer&) const {
    if (m_drag) return Qt::SizeAllCursor;
    if (m_band) return Qt::CrossCursor;
    return m_hover.what == Hit::What::nothing ? Qt::ArrowCursor
           : m_hover.what == Hit::What::point ? Qt::SizeAllCursor
                                              : Qt::PointingHandCursor;
}

} // namespace slab::ui
