#pragma once
// The sizes of the rings that capture a drum by its lip, and the play that they leave.
#include "core/base/error.h"

namespace slab {

/// A drum and the rings that are to hold it, mm.
struct RingProblem {
    double diameter = 0; ///< of the drum outside, without its lip
    double wall = 0;     ///< of the drum
    double lip = 0;      ///< how far the lip stands out
    double lipThickness = 0;
    bool rises = false;       ///< the drum stands up from its lip instead of hanging down from it
    double gap = 0;           ///< running clearance, all round and above the lip
    double overlap = 0;       ///< of the cap ring over the lip
    double ringWidth = 0;     ///< of the seat ring, hole to outside
    double ringThickness = 0; ///< of the sheet that all rings are cut from
    bool operator==(const RingProblem&) const = default;
};

/// Three layers hold the lip: the seat under it, the spacer round it, the cap over it. Heights are above the
/// face that the seat lies on, mm.
struct RingSizes {
    double lipDiameter = 0;
    double seatHole = 0, spacerHole = 0, capHole = 0, outside = 0; ///< diameters
    int spacerLayers = 1;
    double packing = 0;           ///< thickness that no whole layer gives; 0 = none
    bool packingUnderLip = false; ///< it raises the lip; false: it lies with the spacer and raises the cap
    double seatTop = 0, lipTop = 0, capUnder = 0, capTop = 0;
    double play = 0;     ///< that the drum can be pushed to one side, each way from the middle
    double seatLeft = 0; ///< width of lip on the seat where it is least, pushed aside
    double capLeft = 0;  ///< width of lip under the cap where it is least, pushed aside
    double tilt = 0;     ///< the drum can rock by this each way, radians
    bool operator==(const RingSizes&) const = default;
};

/// Seat hole: the drum and the gap all round (a drum that rises: its inside). Spacer hole: the lip and the
/// gap. Cap hole: the lip less the overlap, but clear of a drum that rises. Spacer: as thick as the lip and
/// the gap; what whole layers miss is packed, whichever way takes the thinner packing.
/// @error "ring-size" (a size that is not above zero), "ring-narrow" (nothing is left of the spacer),
///        "ring-seat-lost" or "ring-cap-lost" (pushed aside, the lip leaves the seat or the cap)
/// @source rocking of a slab of width D and height T between two planes T + g apart: D sin a + T cos a = T +
/// g;
///         three layers seat, spacer, cap: common practice
[[nodiscard]] Expected<RingSizes> ringSizes(const RingProblem& p);

} // namespace slab
