#pragma once
// The elevations, and what can be taken hold of in them.
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <array>
#include <compare>
#include <string>
#include <vector>

namespace slab {

/// Side: x to the right, z up. Front, seen from ahead: y (port) to the right, z up. Plan, from above: x
/// right, y up.
enum class BoardView { side, front, plan };
inline constexpr std::array boardViews{BoardView::side, BoardView::front, BoardView::plan};
[[nodiscard]] const char* viewName(BoardView view); ///< "side", "front", "plan"
[[nodiscard]] Expected<BoardView> parseView(const std::string& name);
/// A place or direction in body axes as it is seen in a view.
[[nodiscard]] Vec2 seen(const Vec3& p, BoardView view);
/// Body axis ("x", "y", "z") that runs to the right (0) or up (1) in a view.
[[nodiscard]] const char* axisOf(BoardView view, int direction);

/// What a handle stands for; with the pointer it names a handle.
enum class Handle {
    corner,    ///< outline point, facet corner, taper corner
    halfWidth, ///< a profile point's port edge, seen from ahead or above
    place,     ///< where the form stands: moves the whole form
    roundEnd,  ///< far end of a round form: its length
    radius,    ///< of a round form at its base …
    topRadius, ///< … and at its far end
    curve,     ///< middle of an arc: its bulge; a point that a spline runs through; where end tangents meet
};
struct PointRef {
    std::string
        pointer; ///< "/forms/0/outline/3"; place, roundEnd and radii "/forms/0"; curve "/forms/0/curves/1"
    Handle handle = Handle::corner;
    auto operator<=>(const PointRef&) const = default;
};

/// A field that moves a handle: the handle goes along `along` (body axes, mm at build size) for each mm that
/// the field's value grows at build size.
struct Knob {
    std::string pointer; ///< "/forms/0/outline/3/x"
    Vec3 along = Vec3::Zero();
    bool operator==(const Knob&) const = default;
};

struct BoardPoint {
    PointRef ref;
    std::string name;                       ///< "hull/stem head"
    int form = 0;                           ///< index in the project
    Vec3 place = Vec3::Zero();              ///< body axes, build size
    Vec2 at = Vec2::Zero();                 ///< seen in the view
    std::vector<Knob> knobs;                ///< those that move it in this view; none = only shown
    bool freeRight = false, freeUp = false; ///< the ways in which it can be dragged in this view
    bool mirrored = false;                  ///< a reflected copy: drawn, not editable
    bool operator==(const BoardPoint&) const = default;
};

} // namespace slab
