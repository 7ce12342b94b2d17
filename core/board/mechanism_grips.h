#pragma once
// What can be taken hold of at mechanisms, in body axes. Private to the room.
#include "core/board/board.h"
#include "core/lines/handles.h"
#include "core/mechanisms/mechanisms.h"
#include <cmath>

namespace slab::detail {

/// A field of lengths that carries a grip: by `along` (body axes) for each mm that its value grows.
struct GripKnob {
    std::string field; ///< its pointer
    Vec3 along = Vec3::Zero();
    Space space = Space::subject;
};
/// A field of angles that carries a grip round: it stands at pivot + cos(a) level + sin(a) up.
struct GripArc {
    std::string field; ///< its pointer
    Vec3 pivot = Vec3::Zero(), level = Vec3::UnitX(), up = Vec3::UnitZ();
    double now = 0;             ///< a, radians
    double least = 0, most = 0; ///< how far it may be dragged
    bool down = false;          ///< the field grows as a falls
    [[nodiscard]] Vec3 at(double a) const { return pivot + std::cos(a) * level + std::sin(a) * up; }
};
struct Grip {
    GripRef ref;
    std::string name;
    BoardGrip::Kind kind = BoardGrip::Kind::place;
    Vec3 place = Vec3::Zero();
    std::vector<GripKnob> knobs{};
    std::optional<GripArc> arc{};
};

/// A line of a mechanism's sign in space, see BoardMark.
struct GripLine {
    BoardMark::Kind kind = BoardMark::Kind::axis;
    std::vector<Vec3> points;
};
/// A mechanism as its document shows it; what has no value in it is left out.
struct Standing {
    std::string pointer, name;
    FormPlace at;                   ///< as shown: a turntable has turned it already
    Mat3 turned = Mat3::Identity(); ///< by that turntable
    std::vector<Grip> grips;        ///< its place first
    std::vector<GripLine> lines;
    std::vector<ConvexSolid> solids;         ///< drum, tube, wheels: what it will be made of
    std::vector<std::vector<Vec3>> outlines; ///< the belt's line
};
/// Mechanisms of the document that are not off, and whose place has a value.
/// @param set  as evaluated, for what is worked out of the figures; may be null
[[nodiscard]] std::vector<Standing> standingMechanisms(const Project& project, const Scope& scope,
                                                       const MechanismSet* set);
/// The lines as they are seen; what is seen end on is left out.
/// @param bare  with the outlines of what it will be made of
[[nodiscard]] std::vector<BoardMark> seenMarks(const Standing& s, BoardView view, bool bare);
/// Can it be dragged in a view, or is its way seen end on there?
[[nodiscard]] bool isSeen(const Grip& grip, BoardView view);
/// It goes one way only, and that neither level nor plumb in a view: what it would snap to, it would miss.
[[nodiscard]] bool isSlanted(const Grip& grip, BoardView view);

} // namespace slab::detail
