// What lies under the pointer, and what a click on it chooses.
#include "core/board/sheet.h"
#include "ui/board/board_canvas.h"
#include "ui/board/choose_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/paint/paper_view.h"
#include <algorithm>
#include <limits>

namespace slab::ui {

namespace {

constexpr double onSign = 6; // px: so large is what is drawn of it

bool canBeHeld(const BoardPoint& point, int form) {
    if (point.knobs.empty()) return false;
    return point.form == form || point.ref.handle == Handle::corner;
}

/// The edge that a copy is the reflection of; empty = none that can be held.
std::string originalOf(const BoardElevation& e, const BoardEdge& copy) {
    for (const BoardEdge& edge : e.edges)
        if (!edge.mirrored && edge.form == copy.form && edge.name == copy.name && !edge.pointer.empty())
            return edge.pointer;
    return {};
}

} // namespace

std::vector<PointRef> endsOf(const BoardElevation& e, int edge) {
    if (edge < 0 || edge >= static_cast<int>(e.edges.size())) return {};
    const BoardEdge& line = e.edges[static_cast<std::size_t>(edge)];
    if (line.mirrored || line.from < 0 || line.to < 0) return {};
    return {e.points[static_cast<std::size_t>(line.from)].ref,
            e.points[static_cast<std::size_t>(line.to)].ref};
}

ChooseTool::Hit ChooseTool::pointHit(const BoardElevation& e, const Vec2& at, bool mirrored) const {
    const int form = desk().chosenForm();
    Hit hit;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < e.points.size(); ++i) {
        const BoardPoint& p = e.points[i];
        // What can be done with a copy is what can be done with its original.
        const BoardPoint* held = p.mirrored ? find(desk().scene(), e.view, p.ref) : &p;
        if (p.mirrored != mirrored || !held || !canBeHeld(*held, form)) continue;
        double d = (p.at - at).norm();
        if (d > m_canvas.reach()) continue;
        // Of points in one place the chosen form's comes first, and corners before sizes and places.
        if (p.form != form) d += m_canvas.reach() * 2;
        if (p.ref.handle != Handle::corner) d += m_canvas.reach() * 0.5;
        if (d >= least) continue;
        least = d;
        hit = {Hit::What::point, p.ref, {}, static_cast<int>(i), mirrored};
    }
    return hit;
}

ChooseTool::Hit ChooseTool::mirroredHit(const BoardElevation& e, const Vec2& at) const {
    const Hit point = pointHit(e, at, true);
    if (point.what != Hit::What::nothing) return point;
    BoardElevation copies;
    copies.view = e.view;
    std::vector<int> index;
    for (std::size_t i = 0; i < e.edges.size(); ++i)
        if (e.edges[i].mirrored && !originalOf(e, e.edges[i]).empty()) {
            copies.edges.push_back(e.edges[i]);
            copies.edges.back().pointer = originalOf(e, e.edges[i]);
            index.push_back(static_cast<int>(i));
        }
    const Picked picked = nearest(copies, at, m_canvas.reach(), true);
    if (picked.what != Picked::What::edge) return {};
    const auto found = static_cast<std::size_t>(picked.index);
    return {Hit::What::edge, {}, copies.edges[found].pointer, index[found], true};
}

ChooseTool::Hit ChooseTool::pictureHit(BoardView view, const Vec2& at) const {
    const PlacedPicture* picture = m_canvas.pictures().at(desk().choice().picture);
    if (!picture || picture->hidden || PictureLayer::viewOf(*picture) != view) return {};
    const QPointF here(at.x(), at.y());
    for (const PlacedLine& line : picture->lines) {
        const QPointF from(line.from.x(), line.from.y()), to(line.to.x(), line.to.y());
        if (distanceToSegment(here, from, to) <= m_canvas.reach())
            return {Hit::What::reading, {}, {}, line.index};
    }
    const auto frame = frameOf(*picture);
    const BoxGrip grip = frame ? gripAt(*frame, at, m_canvas.reach()) : BoxGrip{};
    if (!grip.side()) return {};
    return {Hit::What::crop, {}, {}, picture->index, false, grip};
}

ChooseTool::Hit ChooseTool::hitAt(BoardView view, const Vec2& at) const {
    const BoardElevation& e = desk().scene().of(view);
    if (const Hit grip = gripHit(view, at); grip.what != Hit::What::nothing) return grip;
    if (const Hit point = pointHit(e, at, false); point.what == Hit::What::point) return point;
    // An edge that passes by does not take the click off a sign.
    const Hit sign = markHit(view, at);
    if (sign.what != Hit::What::nothing && e.marks[static_cast<std::size_t>(sign.index)].line.size() == 1 &&
        (e.marks[static_cast<std::size_t>(sign.index)].line.front() - at).norm() <
            onSign / m_canvas.view().scale)
        return sign;
    BoardElevation lines = e;
    lines.points.clear();
    const Picked picked = nearest(lines, at, m_canvas.reach());
    const auto index = static_cast<std::size_t>(std::max(picked.index, 0));
    if (picked.what == Picked::What::edge && !e.edges[index].pointer.empty())
        return {Hit::What::edge, {}, e.edges[index].pointer, picked.index};
    // Edges without an outline of their own (of facet forms, between base and top) are their two ends.
    if (picked.what == Picked::What::edge && !endsOf(e, picked.index).empty())
        return {Hit::What::edge, {}, {}, picked.index};
    if (const Hit mark = markHit(view, at); mark.what != Hit::What::nothing) return mark;
    if (const Hit part = partHit(view, at); part.what != Hit::What::nothing) return part;
    if (const Hit copy = mirroredHit(e, at); copy.what != Hit::What::nothing) return copy;
    if (picked.what == Picked::What::dimension) return {Hit::What::dimension, {}, {}, picked.index};
    if (const Hit on = pictureHit(view, at); on.what != Hit::What::nothing) return on;
    if (const Hit in = withinPart(view, at); in.what != Hit::What::nothing) return in;
    if (picked.what == Picked::What::shape &&
        (e.shapes[index].kind == "donor" || e.shapes[index].kind.starts_with("mechanism")))
        return {Hit::What::solid, {}, e.shapes[index].pointer, picked.index, e.shapes[index].mirrored};
    const int picture = m_canvas.pictures().pictureAt(view, at);
    if (picture >= 0) return {Hit::What::picture, {}, {}, picture};
    return {};
}

std::string ChooseTool::shapeUnder(const Hit& hit, BoardView view, const Vec2& at) const {
    const BoardElevation& all = desk().scene().of(view);
    if (hit.what == Hit::What::grip) return all.grips[static_cast<std::size_t>(hit.index)].name;
    if (hit.what == Hit::What::mark) return all.marks[static_cast<std::size_t>(hit.index)].name;
    if (hit.what == Hit::What::part && isMechanism(hit))
        return all.shapes[static_cast<std::size_t>(hit.index)].name;
    if (hit.what == Hit::What::part) {
        const BoardShape& part = desk().scene().of(view).shapes[static_cast<std::size_t>(hit.index)];
        return part.kind + " " + part.name;
    }
    if (hit.what != Hit::What::nothing && hit.what != Hit::What::solid && hit.what != Hit::What::picture)
        return {};
    BoardElevation shapes;
    shapes.view = view;
    shapes.shapes = all.shapes;
    const Picked picked = nearest(shapes, at, m_canvas.reach());
    return picked.what == Picked::What::shape ? all.shapes[static_cast<std::size_t>(picked.index)].name
                                              : std::string();
}

bool ChooseTool::wasChosen(const Hit& hit, BoardView view) const {
    const BoardChoice& choice = desk().choice();
    if (choice.view != view) return false;
    switch (hit.what) {
    case Hit::What::point:
        return desk().isChosen(hit.point);
    case Hit::What::edge: {
        if (!hit.edge.empty()) return desk().isEdgeChosen(hit.edge);
        const auto ends = endsOf(desk().scene().of(view), hit.index);
        return ends.size() == 2 && desk().isChosen(ends[0]) && desk().isChosen(ends[1]);
    }
    case Hit::What::picture:
        return choice.picture == hit.index && choice.reading < 0;
    case Hit::What::crop:
        return true;
    case Hit::What::part:
    case Hit::What::mark:
    case Hit::What::grip:
        return desk().chosenPart() == hit.edge;
    case Hit::What::reading:
        return choice.reading == hit.index;
    default:
        return false;
    }
}

void ChooseTool::choose(const Hit& hit, const BoardPointer& pointer, bool more) {
    if (isMechanism(hit)) return chooseMechanism(hit, pointer.view);
    if (hit.what == Hit::What::part) return choosePart(hit, pointer.view);
    BoardChoice choice = desk().choice();
    const int picture = choice.picture;
    if (!more || choice.view != pointer.view) choice = {pointer.view, {}, {}, -1, -1, -1};
    choice.dimension = choice.picture = choice.reading = -1;
    const auto toggle = [&](auto& list, const auto& one) {
        const auto at = std::find(list.begin(), list.end(), one);
        if (at == list.end())
            list.push_back(one);
        else
            list.erase(at);
    };
    const BoardElevation& e = desk().scene().of(pointer.view);
    if (hit.what == Hit::What::point) toggle(choice.points, hit.point);
    if (hit.what == Hit::What::edge && !hit.edge.empty()) toggle(choice.edges, hit.edge);
    if (hit.what == Hit::What::edge && hit.edge.empty())
        for (const PointRef& end : endsOf(e, hit.index)) toggle(choice.points, end);
    if (hit.what == Hit::What::dimension)
        choice.dimension = e.dimensions[static_cast<std::size_t>(hit.index)].index;
    if (hit.what == Hit::What::picture || hit.what == Hit::What::crop) choice.picture = hit.index;
    if (hit.what == Hit::What::reading) {
        choice.picture = picture;
        choice.reading = hit.index;
    }
    if (hit.what == Hit::What::solid && hit.index >= 0) {
        Selection selection;
        selection.solid = QString::fromStdString(e.shapes[static_cast<std::size_t>(hit.index)].name);
        desk().session()->select(selection);
    }
    desk().choose(std::move(choice));
}

} // namespace slab::ui
