#pragma once
// Who is aboard: the rider where the donor seats one, passengers where the document does.
#include "core/donor/rider.h"

namespace slab {

/// Adds everybody aboard to `set`: solids with the clearance that they want, persons, the rider's poses and
/// findings; all in donor axes.
/// @param seat       the donor's
/// @param clearance  where a person's own is not given, mm
void seatPeople(const Project& project, const Scope& scope, const Seat& seat, double clearance,
                DonorSet& set);

/// How far a rider leans, radians, 0 or more.
struct Leans {
    double forward = 0, back = 0, aside = 0;
};
/// Every pose beside the one at rest, each with the solids that stand elsewhere in it: leaning to the ends,
/// the middles and the corners of both, with the hands at the controls and on the thighs; and what the hands
/// steer by turned to both sides, all the way and half.
/// @param rest  how the rider sits; @param body  the solids of that
[[nodiscard]] std::vector<DonorPose> riderPoses(const RiderFigures& figures, const Seat& seat,
                                                const Posture& rest, const Leans& leans,
                                                const std::vector<FitSolid>& body);

} // namespace slab
