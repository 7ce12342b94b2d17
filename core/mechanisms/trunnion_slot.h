#pragma once
// The slot that an elevating tube needs in a plate ahead of its pivot, and how the tube balances.
#include "core/base/error.h"
#include "core/geometry/polygon.h"
#include <limits>
#include <optional>

namespace slab {

/// Edges of the slot in a plate that holds the pivot's direction, along the plate's rise from the foot of the
/// perpendicular from the pivot, mm.
struct SlotEdges {
    double outerTop = 0, outerBottom = 0, innerTop = 0, innerBottom = 0;
    bool operator==(const SlotEdges&) const = default;
};
/// A tube of `radius` (gap included) whose angle from the plate's normal runs from `from` to `to`: the axis
/// crosses a plane at distance a at a tan(angle), and the tube is cut along the plate at radius / cos(angle)
/// either way.
/// @param distance   of the pivot from the plate's outer face, mm
/// @param thickness  of the plate, growing towards the pivot, mm
/// @param from, to   radians, in (-80 deg, 80 deg), from <= to
/// @error "slot-pivot-near" (the plate's inner face is nearer to the pivot than the radius), "slot-angle"
[[nodiscard]] Expected<SlotEdges> slotEdges(double distance, double thickness, double radius, double from,
                                            double to);

/// The elevating tube as the plate sees it, body axes.
struct SlotProblem {
    Vec3 pivot = Vec3::Zero();
    Vec3 ahead = Vec3::UnitX(), up = Vec3::UnitZ(); ///< unit: the tube at 0, and the way it rises
    double radius = 0;                              ///< gap included
    /// From the pivot to the tube's flat end, gap included; longer than any plate is far when not given.
    double front = std::numeric_limits<double>::infinity();
    double from = 0, to = 0; ///< elevations, radians
    Plane outer;             ///< the plate's outer face
    double thickness = 0;
};
/// Whether the tube's end lies wholly beyond the plate, at all elevations at which it crosses it by 10° or
/// more.
[[nodiscard]] bool endIsBeyond(const SlotProblem& p);
/// Outline in the plate's plane that holds every section of the plate with the tube, over all elevations at
/// which it crosses the plate by 10° or more. Never smaller than the exact envelope. Where that is convex,
/// larger by 0.1 mm at most; where the tube's end moves within the plate, by as far as the end goes in a
/// thousandth of the range.
/// @param flat  frame of the outline: u, v in the plate's outer face
/// @return      counter-clockwise, u and v from the frame's origin
/// @error "slot-none" (the tube never crosses it so, or does not reach it), "slot-pivot-near"
[[nodiscard]] Expected<Ring> slotOutline(const SlotProblem& p, const Frame& flat);

/// Masses on a tube, kg and mm.
struct TubeLoad {
    double diameter = 0, wall = 0;
    double front = 0, rear = 0; ///< lengths ahead of and behind the pivot
    std::optional<double> mass; ///< of the tube; nothing = by its wall, as plastic pipe
    double frontMass = 0, rearMass = 0;
    double lowest = 0, highest = 0; ///< elevations, radians
};
struct TubeBalance {
    double mass = 0;          ///< of the tube, kg
    double moment = 0;        ///< about the pivot when level, N m; positive: the front end is heavy
    double counterweight = 0; ///< kg: to be added at the rear end (below 0: at the front end), for no moment
    double holding = 0;       ///< greatest moment over the range, N m
    bool operator==(const TubeBalance&) const = default;
};
/// Masses on the axis of the tube, its own in its middle. Moment = g cos(elevation) × sum of mass × distance
/// ahead.
/// @source g = 9.80665 m/s²; PVC 1.40 g/cm³ (ASTM D1785 pipe, reference value)
[[nodiscard]] TubeBalance balanceOf(const TubeLoad& load);

} // namespace slab
