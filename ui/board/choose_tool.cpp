#include "core/board/measure.h"
#include "core/board/moves.h"
#include "core/picture/edits.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/choose_drag.h"
#include "ui/board/picture_hold.h"
#include "ui/board/picture_layer.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <utility>

namespace slab::ui {

ChooseTool::ChooseTool(BoardCanvas& canvas) : BoardTool(canvas) {}
ChooseTool::~ChooseTool() = default;

QString ChooseTool::words() const {
    if (m_drag && m_drag->stop) return "By whole degrees · Alt: by tenths · Esc: gives up";
    if (m_drag)
        return "Alt: free of snapping · Ctrl: changes the dimension behind a coordinate · Esc: gives up";
    switch (m_hover.what) {
    case Hit::What::point:
        if (m_hover.mirrored) return "A mirrored copy: a click chooses its original, a drag moves both";
        return "Drag to move · Shift and click for several · Return types its figures";
    case Hit::What::edge:
        if (m_hover.mirrored) return "A mirrored copy: a click chooses its original, a drag moves both";
        return "Drag to move the edge · double click puts a point in";
    case Hit::What::dimension:
        return "Click to type its distance · drag to move the line off its points";
    case Hit::What::crop:
        return "Drag to crop the picture; dragged out again, what was cropped comes back";
    case Hit::What::reading:
        return "Click to say which size of the donor this line is";
    case Hit::What::grip:
    case Hit::What::mark:
        return wordsOfMechanism();
    case Hit::What::part:
        if (isMechanism(m_hover)) return wordsOfMechanism();
        return "Drag to move it, its formula stays · Return types its figures · Delete";
    default:
        if (desk().choice().empty()) return "Click a point or an edge; drag a box round several";
        return canNudge(desk()) ? "Arrows move what is chosen, Shift tenfold · Delete · Esc: choose nothing"
                                : "Delete takes it away · Esc: choose nothing";
    }
}

void ChooseTool::press(const BoardPointer& pointer) {
    m_down = true;
    m_from = pointer;
    m_pressed = hitAt(pointer.view, pointer.at);
    m_more = pointer.keys & Qt::ShiftModifier;
    m_wasChosen = wasChosen(m_pressed, pointer.view);
    // What is chosen already is only let go when the button comes up again without a drag; a picture lies
    // under everything and is chosen by a click alone, so that a box can be drawn over it.
    if (m_pressed.what != Hit::What::nothing && m_pressed.what != Hit::What::picture &&
        m_pressed.what != Hit::What::crop && !m_wasChosen)
        choose(m_pressed, pointer, m_more);
    if (m_pressed.mirrored)
        Q_EMIT desk().told("This is a mirrored copy: its original is chosen now. A drag moves both.", true);
}

void ChooseTool::move(const BoardPointer& pointer) {
    m_hover = hitAt(pointer.view, pointer.at);
    m_under = shapeUnder(m_hover, pointer.view, pointer.at);
}

void ChooseTool::begin(const BoardPointer& pointer) {
    m_drag = std::make_unique<Drag>();
    m_under.clear();
    m_drag->base = desk().project();
    m_drag->scope = desk().scope();
    m_drag->refs = desk().movedPoints();
    m_drag->start = m_from.at;
    m_drag->gesture = "board drag " + std::to_string(++m_gestures);
    if (m_pressed.what == Hit::What::point) {
        if (const BoardPoint* p = find(desk().scene(), pointer.view, m_pressed.point))
            m_drag->start = m_pressed.mirrored ? acrossFrom(pointer.view, p->at) : p->at;
    } else if (m_pressed.what == Hit::What::edge && desk().choice().edges.size() == 1 &&
               desk().choice().points.empty() && m_drag->refs.size() <= 2) {
        m_drag->edges = desk().choice().edges;
    }
    m_drag->mirrored = m_pressed.mirrored;
    if (isMechanism(m_pressed))
        beginGrip(pointer.view);
    else if (m_pressed.what == Hit::What::part)
        beginPart(pointer.view);
    if (m_pressed.what == Hit::What::picture || m_pressed.what == Hit::What::crop)
        m_drag->picture = m_pressed.index;
    if (const PlacedPicture* picture = m_canvas.pictures().at(m_drag->picture);
        picture && m_pressed.what == Hit::What::picture) {
        const PictureHold hold = holdOf(*picture, m_from.at);
        m_drag->mark = hold.name;
        m_drag->start = m_drag->now = hold.at;
    }
    if (const PlacedPicture* picture = m_canvas.pictures().at(m_drag->picture);
        picture && m_pressed.what == Hit::What::crop) {
        m_drag->crop = m_pressed.grip;
        m_drag->box = frameOf(*picture).value_or(Box2{});
    }
    if (m_pressed.what == Hit::What::dimension) m_drag->dimension = desk().choice().dimension;
    m_drag->held = m_drag->start - m_from.at;
    desk().hold(true);
}

void ChooseTool::drag(const BoardPointer& pointer) {
    if (!m_down) return;
    if (!m_drag && !m_band) {
        if (std::hypot(pointer.px.x() - m_from.px.x(), pointer.px.y() - m_from.px.y()) < dragFrom) return;
        const bool picture = m_pressed.what == Hit::What::picture && m_wasChosen;
        using What = Hit::What;
        const What what = m_pressed.what;
        if (what == What::point || what == What::edge || what == What::crop || what == What::dimension ||
            what == What::part || what == What::grip || what == What::mark || picture)
            begin(pointer);
        else
            m_band = Box2{m_from.at, m_from.at};
    }
    if (m_band) {
        m_band = Box2{m_from.at.cwiseMin(pointer.at), m_from.at.cwiseMax(pointer.at)};
        return;
    }
    if (m_drag->crop.any()) return dragCrop(pointer);
    if (m_drag->dimension >= 0) return dragDimension(pointer);
    if (m_drag->picture >= 0) return dragPicture(pointer);
    if (!m_drag->part.empty()) return dragPart(pointer);
    if (!m_drag->grip.pointer.empty()) return dragGrip(pointer);
    SnapOptions options;
    options.moving = m_drag->refs;
    options.anchor = m_drag->start;
    options.off = dragFrom / m_canvas.view().scale;
    const Snap& met = meet(pointer, pointer.at + m_drag->held, options);
    MoveOptions how;
    how.step = m_canvas.step();
    how.exactRight = met.exactRight;
    how.exactUp = met.exactUp;
    how.drive = pointer.keys & Qt::ControlModifier;
    how.gesture = m_drag->gesture;
    Vec2 delta = met.at - m_drag->start;
    if (m_drag->mirrored) delta = acrossFrom(pointer.view, delta);
    const auto edit = m_drag->edges.empty()
                          ? movePoints(m_drag->base, m_drag->scope, pointer.view, m_drag->refs, delta, how)
                          : moveEdge(m_drag->base, m_drag->scope, pointer.view, m_drag->edges.front(), delta,
                                     pointer.keys & Qt::ControlModifier, how);
    m_drag->changed = desk().apply(edit) || m_drag->changed;
}

/// The mark that was taken is what meets points, lines and the grid; the picture's other marks come along.
/// Worked out from where it began: the edit is made on the document as it was then.
void ChooseTool::dragPicture(const BoardPointer& pointer) {
    const PlacedPicture* picture = m_canvas.pictures().at(m_drag->picture);
    if (!picture) return;
    m_snap = {};
    m_snap.at = pointer.at + m_drag->held;
    if (!(pointer.keys & Qt::AltModifier)) {
        SnapOptions options;
        options.anchor = m_drag->start;
        options.off = dragFrom / m_canvas.view().scale;
        options.grid = m_canvas.grid();
        options.carried = picture->name + "/";
        m_snap = slab::snap(desk().scene(), pointer.view, m_snap.at, m_canvas.reach(), options);
        if (!m_snap.words.empty()) m_snap.words = m_drag->mark + ": " + m_snap.words;
    }
    m_drag->now = m_snap.at;
    Edit moved =
        movePicture(m_drag->picture, m_snap.at - m_drag->start, desk().scene().scale, m_drag->gesture);
    moved.apply = [base = m_drag->base, apply = std::move(moved.apply)](const Project&) {
        return apply(base);
    };
    m_drag->changed = desk().apply(std::move(moved)) || m_drag->changed;
}

void ChooseTool::dragCrop(const BoardPointer& pointer) {
    const PlacedPicture* picture = m_canvas.pictures().at(m_drag->picture);
    if (!picture) return;
    const Box2 box =
        pulled(*picture, m_drag->box, m_drag->crop, pointer.at - m_from.at, leastBox / m_canvas.view().scale);
    m_drag->changed = desk().apply(cropTo(*picture, box, m_drag->gesture)) || m_drag->changed;
}

void ChooseTool::dragDimension(const BoardPointer& pointer) {
    const auto edit = moveLine(m_drag->base, m_drag->scope, m_drag->dimension, pointer.at, m_canvas.step(),
                               m_drag->gesture);
    m_drag->changed = desk().apply(edit) || m_drag->changed;
}

void ChooseTool::release(const BoardPointer& pointer) {
    // A tool that is done when the button goes down leaves its coming up to this one.
    if (!std::exchange(m_down, false)) return;
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
            if (p && ref.handle == Handle::corner && !p->mirrored && !p->knobs.empty() &&
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
    m_down = false; // the second release must not take the choice away
    if (hit.what == Hit::What::edge && hit.edge.empty()) {
        const auto ends = endsOf(desk().scene().of(pointer.view), hit.index);
        if (ends.size() == 2) insertCornerAt(desk(), pointer.view, {ends[0], ends[1]}, pointer.at);
    } else if (hit.what == Hit::What::edge)
        insertAt(desk(), pointer.view, hit.edge, pointer.at, m_canvas.step());
    else if (hit.what == Hit::What::point || hit.what == Hit::What::dimension || !hit.edge.empty())
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
    if (!canNudge(desk())) {
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

bool ChooseTool::cancelGesture() {
    if (m_drag) {
        const bool changed = m_drag->changed;
        m_drag.reset();
        meetNothing();
        desk().session()->settle();
        if (changed) desk().session()->undo();
        desk().hold(false);
        m_down = false;
        return true;
    }
    if (!m_band) return false;
    m_band.reset();
    return true;
}

bool ChooseTool::cancel() {
    if (cancelGesture()) return true;
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
    if (m_drag && !m_drag->mark.empty()) {
        painter.setBrush(c.card);
        painter.setPen(QPen(c.chosen, 2));
        painter.drawEllipse(m_canvas.pixelOf(m_from.view, m_drag->now), 4, 4);
    }
    if (m_drag || m_band) return;
    paintPart(painter, desk().scene().of(m_canvas.pointer().view));
    paintMechanism(painter, desk().scene().of(m_canvas.pointer().view));
    const BoardView view = m_canvas.pointer().view;
    const BoardElevation& e = desk().scene().of(view);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.chosen, 2));
    const auto index = static_cast<std::size_t>(std::max(m_hover.index, 0));
    if (const PlacedPicture* picture = m_canvas.pictures().at(desk().choice().picture);
        picture && !picture->hidden && frameOf(*picture)) {
        const QPolygonF frame = boxOnScreen(PictureLayer::viewOf(*picture), *frameOf(*picture), m_canvas);
        painter.setPen(QPen(Theme::mix(c.chosen, c.card, 0.6), 1, Qt::DotLine));
        painter.drawPolygon(frame);
        paintGrips(painter, frame);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.chosen, 2));
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
    if (m_hover.what == Hit::What::crop && !m_band) return cursorFor(m_drag ? m_drag->crop : m_hover.grip);
    if (m_drag) return Qt::SizeAllCursor;
    if (m_band) return Qt::CrossCursor;
    return m_hover.what == Hit::What::nothing                                    ? Qt::ArrowCursor
           : m_hover.what == Hit::What::point || m_hover.what == Hit::What::grip ? Qt::SizeAllCursor
                                                                                 : Qt::PointingHandCursor;
}

} // namespace slab::ui
