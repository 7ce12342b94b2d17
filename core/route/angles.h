#pragma once
// Approach, departure and breakover angles in closed form. mm and radians.
#include "core/route/crossing.h"

namespace slab::route {

/// Angle of the ramp that a wheel and a low point before it touch together.
/// @param ahead   of the low point before the axle, mm, above 0
/// @param height  of the low point, mm, 0 or more
/// @param radius  of the wheel, mm, 0 or more; 0 takes the line from the point of contact, which is smaller
/// and safe
/// @return        asin(R / D) − atan((R − h) / x), D = √(x² + (R − h)²)
/// @error "out-of-range"; also if the point lies inside of the wheel
/// @source  49 CFR 523.2: tangent to the static loaded radius arc, touching the underbody
[[nodiscard]] Expected<double> approachAngle(double ahead, double height, double radius);
/// Angle of the crest that a low point between two wheels of one radius touches: the sum of one angle to
/// each.
/// @param toRear, toFront  from the low point to the axles, mm, above 0
/// @error as approachAngle()
[[nodiscard]] Expected<double> breakoverAngle(double toRear, double toFront, double height, double radius);
/// Angle at which one slope meets the next: the sum of arctangents, not the arctangent of the sum.
/// @param before, behind  rise over run, above 0 uphill;  @return above 0 in a hollow, below 0 at a crest
/// @error "out-of-range"
[[nodiscard]] Expected<double> breakBetween(double before, double behind);
/// Least height of a point midway between two wheels that clears a crest, from the points of contact: L/2
/// tan(θ/2).
/// @param wheelbase  mm, above 0;  @param crest  radians, in [0, π)
/// @error "out-of-range"
[[nodiscard]] Expected<double> leastOverCrest(double wheelbase, double crest);

/// The angles of a vehicle on level ground; π/2 where nothing is in the way.
struct RampAngles {
    double approach = 0, departure = 0, breakover = 0; ///< radians
    Vec2 approachAt = Vec2::Zero(), departureAt = Vec2::Zero(),
         breakoverAt = Vec2::Zero(); ///< of the underside
    bool operator==(const RampAngles&) const = default;
};
/// Between the first and the last axle, whatever stands between them; chains count along their whole length.
/// @error as checkSideView(); "out-of-range" if a low point lies below the ground
[[nodiscard]] Expected<RampAngles> rampAngles(const SideView& vehicle);

} // namespace slab::route
