#include "core/mechanisms/turntable_rings.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// Layers of the spacer and what is packed.
void layRings(const RingProblem& p, RingSizes& r) {
    constexpr double none = 1e-6; // mm: whole layers make it up
    const double t = p.ringThickness, needed = p.lipThickness + p.gap;
    const double whole = std::floor(needed / t + none);
    const double missing = std::max(0.0, needed - whole * t);
    const double over = (whole + 1) * t - needed;
    if (whole >= 1 && (missing < none || missing <= over)) {
        r.spacerLayers = static_cast<int>(whole);
        r.packing = missing < none ? 0 : missing;
    } else {
        r.spacerLayers = static_cast<int>(whole) + 1;
        r.packing = over < none ? 0 : over;
        r.packingUnderLip = r.packing > 0;
    }
    r.seatTop = t;
    r.lipTop = t + (r.packingUnderLip ? r.packing : 0) + p.lipThickness;
    r.capUnder = r.lipTop + p.gap;
    r.capTop = r.capUnder + t;
}

} // namespace

Expected<RingSizes> ringSizes(const RingProblem& p) {
    for (const double size :
         {p.diameter, p.lip, p.lipThickness, p.gap, p.overlap, p.ringWidth, p.ringThickness})
        if (!(size > 0) || !std::isfinite(size))
            return fail(
                "ring-size", "A size of the drum or its rings is not above zero.", {},
                "Give the drum's diameter, its lip and the lip's thickness, the gap, the overlap and the "
                "ring's width.");
    RingSizes r;
    r.lipDiameter = p.diameter + 2 * p.lip;
    r.spacerHole = r.lipDiameter + 2 * p.gap;
    const double clear = p.diameter + 2 * p.gap;
    r.seatHole = p.rises ? std::max(0.0, p.diameter - 2 * p.wall) : clear;
    r.capHole = std::max(r.lipDiameter - 2 * p.overlap, p.rises ? clear : 0.0);
    r.outside = r.seatHole + 2 * p.ringWidth;
    layRings(p, r);
    r.play = p.gap;
    r.seatLeft = (r.lipDiameter - r.seatHole) / 2 - r.play;
    r.capLeft = (r.lipDiameter - r.capHole) / 2 - r.play;
    r.tilt = std::asin(std::min(1.0, (p.lipThickness + p.gap) / std::hypot(r.lipDiameter, p.lipThickness))) -
             std::atan2(p.lipThickness, r.lipDiameter);
    if (!(r.outside > r.spacerHole))
        return fail("ring-narrow", "The rings are too narrow: nothing is left of the spacer beside the lip.",
                    {}, "Make the ring wider than the lip, so that screws hold in the spacer.");
    if (!(r.seatLeft > 0))
        return fail("ring-seat-lost",
                    "Pushed to one side, the drum's lip leaves the seat ring and falls through.", {},
                    "Make the gap smaller, or take a drum with a wider lip.");
    if (!(r.capLeft > 0))
        return fail("ring-cap-lost", "Pushed to one side, the drum's lip comes out from under the cap ring.",
                    {},
                    p.rises ? "Make the gap smaller, or take a drum with a wider lip."
                            : "Make the overlap larger than the gap.");
    return r;
}

} // namespace slab
