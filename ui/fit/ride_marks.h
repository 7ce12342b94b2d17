#pragma once
// What lies on the ground in the 3D view, where it is asked for: how it stands, what is hidden, how it turns.
#include "core/trial/trial.h"

namespace slab::ui {

enum class MarkKind { stand, weight, firstTip, blind, circle, place };
/// Seen through everything.
[[nodiscard]] inline bool isOver(MarkKind kind) {
    return kind == MarkKind::weight || kind == MarkKind::firstTip || kind == MarkKind::place;
}

/// Lines of one look: two points each, mm, body axes.
struct SceneMark {
    MarkKind kind = MarkKind::stand;
    std::vector<Vec3> lines;
    bool operator==(const SceneMark&) const = default;
};

/// Which of them are wanted.
struct GroundMarks {
    bool stand = false;  ///< support polygon and centre of mass
    bool blind = false;  ///< ground that is hidden from the eye
    bool circle = false; ///< the tightest turn
    bool operator==(const GroundMarks&) const = default;
};

/// A circle just over the ground, in sides.
void addGroundCircle(const Vec2& centre, double radius, std::vector<Vec3>& lines);
/// Cheap: a few hundred lines, none where the trial does not know.
[[nodiscard]] std::vector<SceneMark> rideMarks(const trial::Trial& trial, const GroundMarks& wanted);

} // namespace slab::ui
