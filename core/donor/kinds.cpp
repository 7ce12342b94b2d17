#include "core/donor/generic.h"

namespace slab {

namespace {

struct DonorKind {
    const char* name;
    const std::vector<DonorSize>& (*sizes)();
    GenericDonor (*make)(const SizeOf&);
};
/// In the order in which they are offered.
constexpr DonorKind donorTable[] = {
    {"powered_chair", poweredChairSizes, poweredChair},
    {"rear_wheel_chair", rearWheelChairSizes, rearWheelChair},
    {"front_wheel_chair", frontWheelChairSizes, frontWheelChair},
    {"scooter", scooterSizes, scooter},
    {"scooter_4", scooterFourSizes, scooterFour},
    {"self_propelled_chair", selfPropelledSizes, selfPropelledChair},
    {"pushed_chair", pushedSizes, pushedChair},
    {"ride_on", rideOnSizes, rideOn},
    {"wagon", wagonSizes, wagon},
    {"pedal_kart", pedalKartSizes, pedalKart},
    {"garden_tractor", gardenTractorSizes, gardenTractor},
    {"own", ownSizes, ownDonor},
    {"none", bareSeatSizes, bareSeat},
};

const DonorKind& donorKind(const std::string& name) {
    for (const DonorKind& k : donorTable)
        if (name == k.name) return k;
    return donorTable[std::size(donorTable) - 1];
}

} // namespace

std::vector<std::string> donorKinds() {
    std::vector<std::string> all;
    for (const DonorKind& k : donorTable) all.emplace_back(k.name);
    return all;
}

std::vector<DonorSize> donorSizes(const std::string& kind) {
    return donorKind(kind).sizes();
}

GenericDonor makeDonor(const std::string& kind, const SizeOf& size) {
    return donorKind(kind).make(size);
}

} // namespace slab
