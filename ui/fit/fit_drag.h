#pragma once
// Moving donor and rider by hand: screen to millimetres, and the edit that says so in the builder's own
// words.
#include "core/document/edit.h"
#include "core/evaluate/evaluate.h"
#include "ui/fit/view_camera.h"

namespace slab::ui {

/// Move along x and z (mm) that follows the hand from one pixel to another, for what was grabbed at
/// `grabbed`. An axis that points at the eye does not move.
[[nodiscard]] Vec2 moveOnScreen(const ViewCamera& camera, const Vec3& grabbed, double dx, double dy);

/// The typed text moved by `by` mm, rounded to 1 mm or 1/16 in: a plain length becomes the new length, a
/// formula keeps its words and gets an offset behind it ("hull_length * 0.4 + 25 mm").
[[nodiscard]] Text movedText(const Text& typed, double by, const Scope& scope, bool inches);

enum class Movable { donor, rider };
/// Edit that moves donor or rider from where it stands in `before`; all steps of one gesture merge.
[[nodiscard]] Edit moveEdit(Movable what, const Project& before, const Scope& scope, const Vec2& by,
                            const std::string& gesture);

} // namespace slab::ui
