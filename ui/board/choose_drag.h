#pragma once
// What ChooseTool remembers while something is dragged.
#include "ui/board/choose_tool.h"

namespace slab::ui {

inline constexpr double dragFrom = 3; ///< px: what goes less far is a click

/// A place or a way on the other hand of the body.
inline Vec2 acrossFrom(BoardView view, const Vec2& at) {
    if (view == BoardView::front) return {-at.x(), at.y()};
    return view == BoardView::plan ? Vec2(at.x(), -at.y()) : at;
}

/// A drag is worked out anew from where it began, so that nothing adds up.
struct ChooseTool::Drag {
    Project base;
    Scope scope;
    std::vector<PointRef> refs;
    std::vector<std::string> edges; ///< moved as a whole
    Vec2 start = Vec2::Zero();      ///< of what is held, in the view
    Vec2 held = Vec2::Zero();       ///< from the pointer to it
    std::string gesture;
    int picture = -1;                       ///< moved instead of points …
    std::string mark;                       ///< … by this mark of it
    Vec2 now = Vec2::Zero();                ///< where that is
    BoxGrip crop;                           ///< … or cropped by this side
    Box2 box;                               ///< round what was shown of it when the drag began, mm
    int dimension = -1;                     ///< its line is moved off its points
    std::string part;                       ///< a frame or an opening is moved: its place in the document
    std::shared_ptr<const PlateSet> plates; ///< as they were, for that
    GripRef grip;                           ///< … or a handle of a mechanism
    bool stop = false, slanted = false;     ///< what kind of handle that is
    std::shared_ptr<const MechanismSet> mechanisms; ///< as they were, for that
    bool mirrored = false; ///< a copy is held: its original goes the other way across
    bool changed = false;
};

} // namespace slab::ui
