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
    Chassis chassis; ///< in donor axes
};

[[nodiscard]] const std::vector<DonorSize>& poweredChairSizes();
[[nodiscard]] GenericDonor poweredChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& rearWheelChairSizes();
[[nodiscard]] GenericDonor rearWheelChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& frontWheelChairSizes();
[[nodiscard]] GenericDonor frontWheelChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& scooterSizes();
[[nodiscard]] GenericDonor scooter(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& scooterFourSizes();
[[nodiscard]] GenericDonor scooterFour(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& selfPropelledSizes();
[[nodiscard]] GenericDonor selfPropelledChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& pushedSizes();
[[nodiscard]] GenericDonor pushedChair(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& rideOnSizes();
[[nodiscard]] GenericDonor rideOn(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& wagonSizes();
[[nodiscard]] GenericDonor wagon(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& pedalKartSizes();
[[nodiscard]] GenericDonor pedalKart(const SizeOf& size);
[[nodiscard]] const std::vector<DonorSize>& gardenTractorSizes();
[[nodiscard]] GenericDonor gardenTractor(const SizeOf& size);
/// Drawn by hand: a seat and figures; solids and wheels come from the document.
[[nodiscard]] const std::vector<DonorSize>& ownSizes();
[[nodiscard]] GenericDonor ownDonor(const SizeOf& size);
/// No donor: a bare seat, so that a rider has a place.
[[nodiscard]] const std::vector<DonorSize>& bareSeatSizes();
[[nodiscard]] GenericDonor bareSeat(const SizeOf& size);

/// The generic donor of a kind; of an unknown one a bare seat.
[[nodiscard]] GenericDonor makeDonor(const std::string& kind, const SizeOf& size);

/// Mass of a donor by itself, where it lies, what it may carry, how fast it goes and the step that it climbs
/// by its maker's word (0 where none is published): sizes that all have.
[[nodiscard]] std::vector<DonorSize> weightSizes(double mass, double centreX, double centreHeight,
                                                 double rated, double speed, double climb,
                                                 const char* source);
/// Sizes with those behind them.
[[nodiscard]] std::vector<DonorSize> withWeights(std::vector<DonorSize> sizes,
                                                 const std::vector<DonorSize>& weights);
/// Fills in what weightSizes() tells.
void weigh(const SizeOf& size, Chassis& chassis);

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
/// Room for somebody or something that does not go along through doors.
[[nodiscard]] inline FitSolid keptFree(FitSolid solid) {
    solid.keptFree = true;
    return solid;
}

} // namespace slab
