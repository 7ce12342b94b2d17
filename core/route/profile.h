#pragma once
// The ground along the way, and a wheel on it. mm and radians; x along the way, z up.
#include "core/base/error.h"
#include "core/geometry/polygon.h"

namespace slab::route {

/// A line of points (x, z), x never falling; two at one x are an upright step. Beyond its ends the ground
/// goes on along the first and the last stretch, which are therefore not upright.
struct GroundProfile {
    std::vector<Vec2> points;
    bool operator==(const GroundProfile&) const = default;
};
/// @error "profile-short" (under two points), "profile-order" (x falls, a point stands twice, or an end is
///        upright), "out-of-range" (not finite)
[[nodiscard]] Expected<void> checkProfile(const GroundProfile& profile);

/// A straight piece of the way.
struct Stretch {
    double run = 0, rise = 0; ///< mm; a run of 0 is an upright step
};
/// Stretches one after the other from (0, 0), with 1000 mm of level ground before them and behind.
/// Aprons, thresholds, kerbs and ramps of any kind are made like this.
/// @error as checkProfile()
[[nodiscard]] Expected<GroundProfile> profileOf(const std::vector<Stretch>& stretches);
/// Ground of one slope that breaks at (0, 0) into another; both rise over run, above 0 uphill.
[[nodiscard]] Expected<GroundProfile> slopeBreak(double before, double behind);
/// A street that falls towards the gutter, a ramp up, and level ground.
/// @param counter  fall of the street, over run, 0 or more;  @param slope  of the ramp, above 0
/// @error "out-of-range"
[[nodiscard]] Expected<GroundProfile> kerbRamp(double counter, double slope, double rise);
/// Up an upright part, then a bevel, over a sill and down the same way.
/// @param height  in all;  @param upright  part of it, 0 to height;  @param bevel  rise over run, above 0
/// @error "out-of-range"
[[nodiscard]] Expected<GroundProfile> threshold(double height, double upright, double bevel, double depth);
/// A round hump as chords that lie under `tolerance` below the arc; its radius is length²/8h + h/2.
/// @error "out-of-range"
[[nodiscard]] Expected<GroundProfile> hump(double length, double height, double tolerance = 0.01);
/// Driven the other way.
[[nodiscard]] GroundProfile turnedRound(const GroundProfile& profile);

/// Height of the ground; at an upright step the upper one.
[[nodiscard]] double groundAt(const GroundProfile& profile, double x);

/// Where a wheel stands.
struct WheelTouch {
    double height = 0;           ///< of its centre, mm
    Vec2 contact = Vec2::Zero(); ///< the point that it stands on
    double lean = 0;             ///< of the contact from straight below, radians; above 0 ahead
};
/// The lowest place of a wheel's centre over x: the upper envelope of circles about the ground's points, met
/// exactly on stretches (tangent) and corners (arc).
/// @param radius  mm, 0 or more: 0 is a point
[[nodiscard]] WheelTouch wheelOn(const GroundProfile& profile, double radius, double x);
[[nodiscard]] double wheelHeightOn(const GroundProfile& profile, double radius, double x);

/// What is hardest for a wheel that is pushed along +x.
struct Climb {
    double lean = 0;        ///< greatest of the contact ahead, radians; tan of it = push over weight
    Vec2 at = Vec2::Zero(); ///< the corner or stretch where
    bool blocked = false;   ///< a step as high as the wheel's centre: no push lifts it
    bool operator==(const Climb&) const = default;
};
/// @error as checkProfile(); "out-of-range" if the radius is not above 0
/// @source  circles of one radius cross once, so a corner is met first where its arc meets what lies before
/// it
[[nodiscard]] Expected<Climb> hardestClimb(const GroundProfile& profile, double radius);

} // namespace slab::route
