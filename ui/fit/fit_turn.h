#pragma once
// Turning a mechanism's part by hand in 3D: screen to radians. No widgets.
#include "core/board/turn_edits.h"
#include "core/evaluate/evaluate.h"
#include "ui/fit/view_camera.h"

namespace slab::ui {

/// A tube, a drum … of a mechanism, as it is drawn in 3D.
[[nodiscard]] bool isMechanismSolid(const Evaluation& evaluation, const std::string& name);
/// The turns of a plate, a round form or a solid of a mechanism, its own first; empty = it does not move.
[[nodiscard]] std::vector<TurnNow> turnsOfPart(const Project& project, const MechanismSet& set,
                                               const std::string& name);
/// Of several turns the one that a drag from a point follows best.
/// @param grabbed  a point of the part, body axes
/// @param by       the drag so far, px
[[nodiscard]] std::size_t followed(const std::vector<TurnNow>& turns, const ViewCamera& camera,
                                   const Vec3& grabbed, const Vec2& by);
/// How far to turn so that the grabbed point comes under the hand, radians: round its circle where that is
/// seen open, else along its tangent.
/// @param from, to  pixels where the drag began, and now
[[nodiscard]] double turnOnScreen(const TurnNow& turn, const ViewCamera& camera, const Vec3& grabbed,
                                  const Vec2& from, const Vec2& to);

} // namespace slab::ui
