#pragma once
// Mechanisms on the drawing board: moved by their handles and deleted, as edits. Formulas are kept as moves.h
// keeps them.
#include "core/board/moves.h"

namespace slab {

/// A handle of a mechanism dragged as seen in a view: its place, an end, a stop, a wheel. What stands on a
/// turntable goes with it. Stops are written in whole degrees, or in tenths where options.step is 0, and do
/// not pass each other.
/// @param set    as evaluated; may be null
/// @param delta  mm at build size; what the handle cannot do is passed over
/// @error "no-such-place"; "not-movable" (its way is seen end on here); "broken-formula"
[[nodiscard]] Expected<Edit> moveGrip(const Project& project, const Scope& scope, const MechanismSet* set,
                                      BoardView view, const GripRef& ref, const Vec2& delta,
                                      const MoveOptions& options = {});

/// The entry of the document of a mechanism by its name: "/mechanisms/belts/0"; empty = there is none.
[[nodiscard]] std::string mechanismAt(const Project& project, const std::string& name);
/// The mechanism that an entry is or lies in: of "/mechanisms/belts/0/wheels/1" "/mechanisms/belts/0"; empty
/// where the document has no such mechanism.
[[nodiscard]] std::string mechanismIn(const Project& project, const std::string& pointer);
/// The same, or the belt's wheel that the pointer is or lies in.
[[nodiscard]] std::string mechanismOrWheel(const Project& project, const std::string& pointer);
/// Its name; empty = there is none.
[[nodiscard]] std::string mechanismName(const Project& project, const std::string& pointer);

/// A mechanism taken away, or a wheel of a belt. A trunnion that turned with a turntable stands still from
/// then on; a belt that moved a wheel moves its last one. Rules of the document that name its plates stay:
/// each has a finding of its own then.
/// @error "no-such-place"; "two-wheels" (the belt would have less than two)
[[nodiscard]] Expected<Edit> deleteMechanism(const Project& project, const std::string& pointer);
/// Trunnions that turn with a turntable, by name.
[[nodiscard]] std::vector<std::string> standingOn(const Project& project, const std::string& turntable);

/// Lines that show where a mechanism of the document would stand, though nothing of it is made yet.
[[nodiscard]] std::vector<BoardMark> plannedMarks(const Project& project, const Scope& scope, BoardView view,
                                                  const std::string& pointer);

} // namespace slab
