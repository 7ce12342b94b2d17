#include "core/donor/kinds.h"
#include "core/donor/generic.h"

namespace slab {

namespace {

struct DonorKind {
    const char* name;
    const char* label;
    const std::vector<DonorSize>& (*sizes)();
    GenericDonor (*make)(const SizeOf&);
};
/// In the order in which they are offered.
constexpr DonorKind donorTable[] = {
    {"powered_chair", "powered chair, mid-wheel drive", poweredChairSizes, poweredChair},
    {"rear_wheel_chair", "powered chair, rear-wheel drive", rearWheelChairSizes, rearWheelChair},
    {"front_wheel_chair", "powered chair, front-wheel drive", frontWheelChairSizes, frontWheelChair},
    {"scooter", "scooter, three wheels", scooterSizes, scooter},
    {"scooter_4", "scooter, four wheels", scooterFourSizes, scooterFour},
    {"self_propelled_chair", "chair, self-propelled", selfPropelledSizes, selfPropelledChair},
    {"pushed_chair", "chair, pushed", pushedSizes, pushedChair},
    {"ride_on", "battery ride-on toy", rideOnSizes, rideOn},
    {"wagon", "wagon, pulled", wagonSizes, wagon},
    {"pedal_kart", "pedal kart", pedalKartSizes, pedalKart},
    {"garden_tractor", "garden tractor", gardenTractorSizes, gardenTractor},
    {"own", "your own, drawn by hand", ownSizes, ownDonor},
    {"none", "none", bareSeatSizes, bareSeat},
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

std::string donorLabel(const std::string& kind) {
    const DonorKind& known = donorKind(kind);
    return known.name == kind ? known.label : kind;
}

double usualAge(const std::string& kind) {
    return kind == "ride_on" ? 4 : kind == "wagon" ? 6 : kind == "pedal_kart" ? 9 : 0;
}

std::vector<std::string> roomOutside(const std::string& kind) {
    if (kind == "pushed_chair") return {"helper's room", "left pushing hand", "right pushing hand"};
    if (kind == "wagon") return {"puller's room", "handle sweep"};
    return {};
}

GenericDonor makeDonor(const std::string& kind, const SizeOf& size) {
    return donorKind(kind).make(size);
}

} // namespace slab
