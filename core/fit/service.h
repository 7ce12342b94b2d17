#pragma once
// Whether a hand gets to the donor's service points through the shell.
#include "core/fit/fit.h"

namespace slab {

/// The best straight way from every service point out of the shell, as wide as a hand.
///
/// Plates are as cut: openings are free, their lids are off, everything else is closed. Solids of the donor
/// are in the way but for what they only sweep; nobody sits in it, but who would may reach the point from the
/// seat. Ways lie within 60° of the side that the hand comes from, or anywhere above ground; about 2,000
/// directions, those to the middles of openings among them, and the best of them refined: what lies between
/// these may be missed, never the other way round.
/// @return no ways where there are no plates
/// @param plates    round forms among them
/// @param outlines  the plates with their openings
[[nodiscard]] std::vector<ServiceWay> serviceWays(const DonorSet& donor, const PlateSet& plates,
                                                  const PlateSet& outlines,
                                                  const UnitStyle& style = fitUnits);
/// "from port and above" of a way out.
[[nodiscard]] std::string fromWords(const Vec3& way);
/// `service-blocked` and `service-narrow`, with what is in the way and the remedy.
[[nodiscard]] std::vector<Finding> serviceFindings(const std::vector<ServiceWay>& ways,
                                                   const PlateSet& plates, const UnitStyle& style = fitUnits);

} // namespace slab
