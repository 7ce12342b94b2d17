#pragma once
// A body that hangs on a donor at a pin and rolls on one axle of its own, as a trailer does. mm and radians.
#include "core/route/crossing.h"

namespace slab::route {

struct HungTravel {
    Along noseDown, noseUp;      ///< least and most pitch of the body against the donor, radians
    GroundGap clearance;         ///< least under the body; infinite if it has no undersides
    std::vector<SidePose> poses; ///< of the body, at even steps, for pictures
    int steps = 0;
    double change = 0; ///< as in Crossing; 0 of a quick one
};

/// The body with its pin at a place and its wheel on the ground.
/// @param linked  whose body has one axle
/// @param near    a pitch to look about first
/// @error "no-stance" if there is no such pitch under 60°
[[nodiscard]] Expected<SidePose> hangAt(const GroundProfile& ground, const Linked& linked, const Vec2& pin,
                                        double near = 0);

/// Driven with its donor from one x of the donor's origin to another; refined as drive().
/// @error as standAt() of the donor; "axles-few" unless the body has one axle; "axle-under-link" if that is
/// less than 10 mm along from the pin; "no-stance"
[[nodiscard]] Expected<HungTravel> driveHung(const GroundProfile& ground, const Linked& linked, double from,
                                             double to, double tolerance = 0.02);
/// The same while a hand moves: at even steps only; no poses.
/// @error as driveHung()
[[nodiscard]] Expected<HungTravel> quickHung(const GroundProfile& ground, const Linked& linked, double from,
                                             double to, int steps = 96);

} // namespace slab::route
