#pragma once
// The drawing board: elevations unfolded on one sheet, as plain values. boardScene() says what stands where;
// moves.h and outline_edits.h turn gestures into edits, snap.h finds what a gesture hits, measure.h tells
// distances, starts.h gives ready bodies.
#include "core/evaluate/evaluate.h"
#include <array>

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
/// An outline's edge from one point to the next.
struct BoardEdge {
    std::string
        pointer; ///< of the point that it starts from; empty = drawn only (corner lines of a taper form …)
    std::string name; ///< side: "hull/deck"
    int form = 0;
    int from = -1, to = -1;   ///< indices in BoardElevation::points; -1 = no point
    std::vector<Vec2> line;   ///< the true curve as a fine line, or two ends
    std::vector<Vec2> facets; ///< the flats that replace it; empty when straight
    bool mirrored = false;
    bool operator==(const BoardEdge&) const = default;
};
struct BoardShape {   ///< a region drawn over or under the outlines
    std::string name; ///< "donor/seat", "opening exit", "frame 2"
    std::string kind; ///< "donor", "rider", "opening", "frame", "plate", "round"
    std::vector<Ring> rings;
    bool operator==(const BoardShape&) const = default;
};
struct BoardLine { ///< an edge of the skin or of a plate
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    std::string left, right; ///< faces that meet there
    bool operator==(const BoardLine&) const = default;
};
/// A dimension line as drawn: its ends on the points, the drawn line beside them, and the figure.
struct BoardDimension {
    int index = 0; ///< in the project's list
    std::string name, drives;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();         ///< the two points
    Vec2 lineFrom = Vec2::Zero(), lineTo = Vec2::Zero(); ///< ends of the drawn line
    double value = 0;                                    ///< mm at build size
    std::string figure; ///< in the builder's units; subject size where the scale is not 1 too
    bool operator==(const BoardDimension&) const = default;
};
struct BoardFeature { ///< marked in a picture
    std::string name; ///< "stern photo/rail end"
    BoardView view = BoardView::side;
    Vec2 at = Vec2::Zero();
    bool operator==(const BoardFeature&) const = default;
};

struct BoardElevation {
    BoardView view = BoardView::side;
    std::vector<BoardPoint> points;
    std::vector<BoardEdge> edges;
    std::vector<BoardLine> skin;
    std::vector<BoardShape> shapes;
    std::vector<BoardDimension> dimensions;
    std::vector<BoardFeature> features;
    Box2 bounds; ///< of everything drawn, the ground's origin included
    bool operator==(const BoardElevation&) const = default;
};
struct BoardScene {
    std::array<BoardElevation, 3> views; ///< side, front, plan
    double scale = 1;
    UnitStyle units;
    std::vector<Finding> findings; ///< what cannot be drawn: dimension lines that point nowhere
    [[nodiscard]] const BoardElevation& of(BoardView view) const {
        return views[static_cast<std::size_t>(view)];
    }
    bool operator==(const BoardScene&) const = default;
};

/// Everything that is drawn on the board, in mm at build size. Parts of the evaluation may be missing (null).
/// @param features  marked in pictures, already placed in their elevations
[[nodiscard]] BoardScene boardScene(const Project& project, const Evaluation& evaluation,
                                    const std::vector<BoardFeature>& features = {});
[[nodiscard]] const BoardPoint* find(const BoardScene& scene, BoardView view, const PointRef& ref);

} // namespace slab
