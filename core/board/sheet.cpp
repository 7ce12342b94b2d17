#include "core/board/sheet.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

double distanceTo(const Box2& box, const Vec2& p) {
    return (p - p.cwiseMax(box.min).cwiseMin(box.max)).norm();
}

/// Keeps what is nearer than all before.
void offer(Picked& best, Picked::What what, std::size_t index, const Vec2& on, const Vec2& at) {
    const double distance = (on - at).norm();
    if (distance >= best.distance) return;
    best = {what, static_cast<int>(index), distance, on};
}

} // namespace

BoardSheet layOut(const BoardScene& scene, double gap) {
    BoardSheet sheet;
    const Box2 &side = scene.of(BoardView::side).bounds, &front = scene.of(BoardView::front).bounds,
               &plan = scene.of(BoardView::plan).bounds;
    const double right = std::max(side.max.x(), plan.max.x()) + gap;
    const double below = std::min(side.min.y(), front.min.y()) - gap;
    sheet.origin[1] = {right - front.min.x(), 0};
    sheet.origin[2] = {0, below - plan.max.y()};
    for (const BoardView view : boardViews) {
        const auto i = static_cast<std::size_t>(view);
        const Box2& box = scene.views[i].bounds;
        sheet.area[i] = {sheet.origin[i] + box.min, sheet.origin[i] + box.max};
    }
    // A width y stands at origin[1].x + y in the front and at origin[2].y + y in the plan.
    sheet.corner = {sheet.origin[1].x(), sheet.origin[2].y()};
    return sheet;
}

BoardView viewAt(const BoardSheet& sheet, const Vec2& at) {
    BoardView best = BoardView::side;
    double least = std::numeric_limits<double>::infinity();
    for (const BoardView view : boardViews) {
        const double d = distanceTo(sheet.area[static_cast<std::size_t>(view)], at);
        if (d >= least) continue;
        least = d;
        best = view;
    }
    return best;
}

std::vector<ProjectionLine> projectionLines(const BoardSheet& sheet, const Vec3& place) {
    const Vec2 side = sheet.toSheet(BoardView::side, seen(place, BoardView::side));
    const Vec2 front = sheet.toSheet(BoardView::front, seen(place, BoardView::front));
    const Vec2 plan = sheet.toSheet(BoardView::plan, seen(place, BoardView::plan));
    const Vec2 turn(front.x(), plan.y()); // on the 45° line through `corner`
    return {{side, front}, {side, plan}, {plan, turn}, {turn, front}};
}

Picked nearest(const BoardElevation& view, const Vec2& at, double reach, bool withMirrored) {
    Picked best;
    best.distance = std::nextafter(reach, 2 * reach + 1);
    // A form's own place gives way to points that lie there too.
    for (const bool places : {false, true}) {
        if (places && best.what == Picked::What::point) break;
        for (std::size_t i = 0; i < view.points.size(); ++i) {
            const BoardPoint& p = view.points[i];
            if ((p.mirrored && !withMirrored) || (p.ref.handle == Handle::place) != places) continue;
            offer(best, Picked::What::point, i, p.at, at);
        }
    }
    if (best.what != Picked::What::nothing) return best;
    for (std::size_t i = 0; i < view.edges.size(); ++i) {
        const BoardEdge& e = view.edges[i];
        if (e.mirrored && !withMirrored) continue;
        // Of edges that lie in one place the one that can be dragged.
        const bool held = !e.pointer.empty() || (e.from >= 0 && e.to >= 0);
        for (std::size_t k = 0; k + 1 < e.line.size(); ++k) {
            const Vec2 on = nearestOnSegment(at, e.line[k], e.line[k + 1]);
            if (!held && (on - at).norm() > best.distance - 1e-6) continue;
            offer(best, Picked::What::edge, i, on, at);
        }
    }
    if (best.what != Picked::What::nothing) return best;
    for (std::size_t i = 0; i < view.dimensions.size(); ++i) {
        const BoardDimension& d = view.dimensions[i];
        offer(best, Picked::What::dimension, i, nearestOnSegment(at, d.lineFrom, d.lineTo), at);
    }
    if (best.what != Picked::What::nothing) return best;
    double least = std::numeric_limits<double>::infinity();
    best.distance = 0;
    best.at = at;
    for (std::size_t i = 0; i < view.shapes.size(); ++i)
        for (const Ring& ring : view.shapes[i].rings) {
            if (ring.size() < 3 || !contains(ring, at)) continue;
            const double size = std::abs(signedArea(ring)); // the smallest lies on top
            if (size >= least) continue;
            least = size;
            best.what = Picked::What::shape;
            best.index = static_cast<int>(i);
        }
    return best;
}

std::vector<int> together(const BoardElevation& view, int point) {
    std::vector<int> all;
    const BoardPoint& one = view.points[static_cast<std::size_t>(point)];
    for (std::size_t i = 0; i < view.points.size(); ++i) {
        const BoardPoint& p = view.points[i];
        if (p.form == one.form && !p.mirrored && p.ref.handle == one.ref.handle &&
            (p.at - one.at).norm() < 1e-6)
            all.push_back(static_cast<int>(i));
    }
    return all;
}

std::vector<PointRef> inside(const BoardElevation& view, const Box2& box) {
    std::vector<PointRef> refs;
    for (const BoardPoint& p : view.points) {
        if (p.mirrored || p.knobs.empty() || p.ref.handle == Handle::place) continue;
        if ((p.at.array() < box.min.array()).any() || (p.at.array() > box.max.array()).any()) continue;
        refs.push_back(p.ref);
    }
    return refs;
}

} // namespace slab
