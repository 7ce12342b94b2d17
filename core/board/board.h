#pragma once
// The drawing board: elevations unfolded on one sheet, as plain values. boardScene() says what stands where;
// moves.h and outline_edits.h turn gestures into edits, snap.h finds what a gesture hits, measure.h tells
// distances, starts.h gives ready bodies.
#include "core/evaluate/evaluate.h"
#include "core/lines/view.h"

namespace slab {

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
    std::string kind; ///< "donor", "rider", "opening", "frame", "mechanism", "mechanism plate"
    std::vector<Ring> rings;
    std::string pointer{}; ///< of frames, openings and mechanisms: their entry in the document
    bool mirrored = false; ///< of a mechanism: the starboard one of two halves
    bool operator==(const BoardShape&) const = default;
};
/// What can be dragged at a mechanism; with the key it is named: "/mechanisms/trunnions/0" and "front",
/// "/mechanisms/belts/0/wheels/1" and "at".
struct GripRef {
    std::string pointer; ///< of the mechanism or the wheel
    std::string key;     ///< "at" = its place, else the field that the grip changes
    auto operator<=>(const GripRef&) const = default;
};
struct BoardGrip {
    enum class Kind { place, size, stop };
    GripRef ref;
    std::string name; ///< "water monitor", "water monitor/front end"
    Kind kind = Kind::place;
    Vec3 place = Vec3::Zero(); ///< body axes, build size
    Vec2 at = Vec2::Zero();    ///< seen in the view
    bool slanted = false;      ///< it goes one way only, and that neither level nor plumb
    bool operator==(const BoardGrip&) const = default;
};
/// A line or a sign that stands for a mechanism where its parts do not tell.
struct BoardMark {
    enum class Kind {
        axis,   ///< that it turns about, or a hinge line
        range,  ///< how far it turns: an arc between its stops
        travel, ///< how far a pin rides up and down
        pivot,
        hinge,
        pin,    ///< pivot, hinge and pin: signs at one point
        outline ///< of what is not made (yet): drum, tube, belt
    };
    Kind kind = Kind::axis;
    std::string pointer; ///< of the mechanism
    std::string name;
    std::vector<Vec2> line;
    bool operator==(const BoardMark&) const = default;
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
    bool whole = false; ///< what it drives is as long as what it measures, not a part of it
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
    std::vector<BoardMark> marks; ///< of mechanisms
    std::vector<BoardGrip> grips; ///< of mechanisms, those that can be dragged in this view
    Box2 bounds;                  ///< of everything drawn, the ground's origin included
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
