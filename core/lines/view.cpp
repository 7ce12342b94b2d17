#include "core/lines/view.h"

namespace slab {

const char* viewName(BoardView view) {
    return view == BoardView::side ? "side" : view == BoardView::front ? "front" : "plan";
}

Expected<BoardView> parseView(const std::string& name) {
    for (const BoardView view : boardViews)
        if (name == viewName(view)) return view;
    return fail("unknown-word", "\"" + name + "\" is no elevation.", {}, "Use side, front or plan.");
}

Vec2 seen(const Vec3& p, BoardView view) {
    return view == BoardView::side    ? Vec2(p.x(), p.z())
           : view == BoardView::front ? Vec2(p.y(), p.z())
                                      : Vec2(p.x(), p.y());
}

const char* axisOf(BoardView view, int direction) {
    if (direction == 0) return view == BoardView::front ? "y" : "x";
    return view == BoardView::plan ? "y" : "z";
}

} // namespace slab
