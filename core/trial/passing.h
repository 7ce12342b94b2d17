#pragma once
// One part of the route at a time.
#include "core/trial/outline.h"

namespace slab::trial {

/// Wanted beside the thing in a doorway: two hands' breadths are comfort, this is what steering takes, mm in
/// all (common practice: 50 mm in all).
inline constexpr double doorRoom = 50;
/// Wanted along a floor, mm (from memory).
inline constexpr double floorRoom = 50;
/// Wanted under the thing, mm (from memory; 60 mm is asked of rail-transportable chairs on the level).
inline constexpr double groundRoom = 15;

[[nodiscard]] route::DriveGeometry driveOf(const Chassis& chassis);

/// What is driven through, into or round.
[[nodiscard]] RouteResult passPlan(const Stuff& stuff, const RouteFigure& part);
/// What is driven over.
[[nodiscard]] RouteResult passGround(const Stuff& stuff, const RouteFigure& part,
                                     const std::optional<Balance>& balance);

/// Nothing without two axles, or with a shell on wheels of its own.
[[nodiscard]] std::optional<Ramps> rampsOf(const Stuff& stuff);

} // namespace slab::trial
