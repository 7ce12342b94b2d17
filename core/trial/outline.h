#pragma once
// The finished thing seen from above, from the side and from below: what meets walls, wind and ground.
#include "core/route/crossing.h"
#include "core/route/footprint.h"
#include "core/trial/stuff.h"

namespace slab::trial {

/// Everything there is. Room that is only kept free (a helper's, a hand's) is no bulk.
[[nodiscard]] std::vector<Bulk> bulksOf(const Stuff& stuff);

/// Axes of the way, seen from the body: x as the donor drives, its middle at y = 0.
[[nodiscard]] Frame wayOf(const Stuff& stuff);
/// The way that the donor drives, from the body's x towards y, radians.
[[nodiscard]] double headingOf(const Chassis& chassis);

/// With everybody and with nobody aboard; each may fail as route::footprintOf().
struct Plans {
    Expected<OwnedFootprint> aboard, empty;
};
[[nodiscard]] Plans plansOf(const std::vector<Bulk>& bulks);

/// What the wind meets.
struct Silhouette {
    double area = 0; ///< mm²
    Vec3 centre = Vec3::Zero();
};
/// All that stands, seen along y (from the side) or x.
[[nodiscard]] Silhouette silhouetteOf(const Stuff& stuff, bool fromSide);

/// What a side view is made of.
struct SideParts {
    bool shell = true, donor = true;
    std::vector<Wheel> wheels;
    Vec3 centre = Vec3::Zero(); ///< of mass, body axes
    double reach = 0;           ///< how high above the ground something may be and still count, mm
};
[[nodiscard]] OwnedSide sideOf(const Stuff& stuff, const SideParts& parts);

} // namespace slab::trial
