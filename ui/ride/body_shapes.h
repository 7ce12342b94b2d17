#pragma once
// The body as it is seen square from above, from starboard and from behind, for drawings of the ride.
#include "core/evaluate/evaluate.h"

namespace slab::ui {

/// Which way a drawing looks.
enum class Look {
    plan, ///< across x, up y
    side, ///< across x, up z
    end   ///< from behind: across −y, up z
};

/// Everything in the axes of the way: x as the donor drives, its middle at y = 0, z = 0 the ground; mm.
struct SeenBody {
    std::vector<std::vector<Ring>> shell; ///< faces that look at the eye, far ones first, each with its holes
    std::vector<Ring> donor, rider;       ///< outlines of what is seen through it
    Box2 box;                             ///< of all that stands
    [[nodiscard]] bool empty() const { return shell.empty() && donor.empty() && rider.empty(); }
};
struct BodyShapes {
    Frame way; ///< those axes, seen from the body
    SeenBody plan, side, end;
    [[nodiscard]] const SeenBody& of(Look look) const {
        return look == Look::plan ? plan : look == Look::side ? side : end;
    }
};
[[nodiscard]] Frame wayOf(const Evaluation& evaluation);
[[nodiscard]] BodyShapes bodyShapes(const Evaluation& evaluation);
/// A place in the axes of the way as a drawing shows it.
[[nodiscard]] Vec2 seenAs(const Vec3& place, Look look);

} // namespace slab::ui
