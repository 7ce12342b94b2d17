#pragma once
// What a vehicle sweeps over the ground when it turns, in plan. mm and radians; x forward, y to port. A
// footprint is a set of points of which the convex hull counts: turning needs no more of it.
#include "core/base/error.h"
#include "core/geometry/polygon.h"

namespace slab::route {

/// The hull of a footprint, counter-clockwise, and which way it may turn.
struct Footprint {
    Ring outline;
    bool operator==(const Footprint&) const = default;
};
/// @param points  corners of everything that can meet a wall, in the vehicle's axes
/// @error "footprint-flat" if they enclose no area; "out-of-range" if one is not finite
[[nodiscard]] Expected<Footprint> footprintOf(const std::vector<Vec2>& points);
/// Rectangle from `rear` to `front` (x) and `half` to either side.
[[nodiscard]] Expected<Footprint> rectangleFootprint(double rear, double front, double half);

/// What decides how it turns: it rolls without slip, so it turns about some point of its drive axle's line.
struct DriveGeometry {
    double axle = 0;        ///< x of the axle that does not steer (the drive axle of a powered chair), mm
    double leastRadius = 0; ///< from the turning point to the axle's middle, mm; 0 turns on the spot
    bool operator==(const DriveGeometry&) const = default;
};
/// One wheel a side driven on its own, the others casters.
[[nodiscard]] inline DriveGeometry pivotDrive(double axle) {
    return {axle, 0};
}
/// A steered axle `wheelbase` ahead of the fixed one: R = L / tan δ.
/// @param lock  greatest angle of the (middle) steered wheel, radians in (0, π/2)
/// @error "out-of-range"
/// @source  kinematic bicycle model
[[nodiscard]] Expected<DriveGeometry> steeredDrive(double axle, double wheelbase, double lock);

/// Radii about the turning point.
struct SweptPath {
    double radius = 0; ///< of the axle's middle, mm
    double inner = 0,
           outer = 0;    ///< of the ground that it sweeps; inner is 0 if the turning point is under it
    int innerCorner = 0; ///< corner of the outline next to the turning point
    int outerCorner = 0; ///< corner of the outline that sweeps widest
    [[nodiscard]] double width() const { return outer - inner; }
    [[nodiscard]] double diameter() const { return 2 * outer; }
    bool operator==(const SweptPath&) const = default;
};
/// A full turn to port of a radius; for one to starboard mirror the footprint.
/// @param radius  mm, 0 or more: a radius under drive.leastRadius is not refused, so that lesser locks can be
/// asked
/// @error "out-of-range"
[[nodiscard]] Expected<SweptPath> sweptPath(const Footprint& footprint, double axle, double radius);
/// The tightest turn to the worse side: what a turning space (wall to wall) must measure.
[[nodiscard]] Expected<SweptPath> tightestTurn(const Footprint& footprint, const DriveGeometry& drive);
[[nodiscard]] Footprint mirrored(const Footprint& footprint);

/// How far the fixed axle cuts in, mm, when the steered one runs on a circle.
/// @param radius     of the steered axle's middle, mm;  @param wheelbase  mm, 0 to radius
/// @return           R − √(R² − L²)
/// @error "out-of-range"
/// @source  Pythagoras; SAE J695 calls it off-tracking
[[nodiscard]] Expected<double> offTracking(double radius, double wheelbase);

/// A doorway with square jambs, met straight on or aslant.
struct Doorway {
    double width = 0;     ///< clear, between leaf (open as it will be) and jamb, mm
    double height = 0;    ///< clear, mm
    double thickness = 0; ///< of the wall, mm
    bool operator==(const Doorway&) const = default;
};
/// Driven straight through a doorway.
struct DoorPassage {
    double margin = 0;           ///< mm to spare in all, across; below 0 it does not pass
    double above = 0;            ///< mm to spare over it
    int port = 0, starboard = 0; ///< corners of the outline that come next to either jamb
    double offset = 0; ///< how far port of the door's middle x must run to share the margin evenly, mm
    [[nodiscard]] bool passes() const { return margin >= 0 && above >= 0; }
    bool operator==(const DoorPassage&) const = default;
};
/// @param height  of all that passes, mm
/// @param skew    of the way from square to the wall, radians, in (−π/2, π/2)
/// @error "out-of-range"
/// @source  seen along the way a door of width w in a wall of thickness t is w cos α − t sin |α| wide
[[nodiscard]] Expected<DoorPassage> passDoor(const Footprint& footprint, double height, const Doorway& door,
                                             double skew = 0);

/// Rise and run of a ramp of a slope: run = rise / slope, and the way along it.
struct RampSize {
    double run = 0, length = 0; ///< mm
};
/// @param slope  rise over run, above 0
/// @error "out-of-range"
[[nodiscard]] Expected<RampSize> rampSize(double rise, double slope);

} // namespace slab::route
