#pragma once
// The generic donors: simple solids from a handful of named sizes, in donor axes (origin on the ground under
// the middle of the drive or rear axle, x forward).
#include "core/donor/rider.h"
#include <functional>

namespace slab {

using SizeOf = std::function<double(const char*)>; ///< value of a named donor size, mm

struct GenericDonor {
    std::vector<FitSolid> solids; ///< names without group; clearance 0 = the default
    Seat seat;
};

[[nodiscard]] const std::vector<DonorSize>& poweredChairSizes();
[[nodiscard]] GenericDonor poweredChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& scooterSizes();
[[nodiscard]] GenericDonor scooter(const SizeOf& size);
/// No donor: a bare seat, so that a rider has a place.
[[nodiscard]] const std::vector<DonorSize>& bareSeatSizes();
[[nodiscard]] GenericDonor bareSeat(const SizeOf& size);

/// A position may lie on either side of the axle; every other size is above zero.
[[nodiscard]] bool isPosition(const std::string& sizeName);

/// Least gap to turning and sweeping parts, mm (common practice).
inline constexpr double movingClearance = 20;

/// A solid of the donor; a moving one asks for movingClearance.
[[nodiscard]] inline FitSolid part(std::string name, ConvexSolid shape, bool moving = false,
                                   std::string note = {}) {
    return {std::move(name), "donor",        std::move(shape), moving ? movingClearance : 0,
            moving,          std::move(note)};
}

} // namespace slab
