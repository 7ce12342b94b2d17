#include "core/donor/generic.h"

namespace slab {

const std::vector<DonorSize>& bareSeatSizes() {
    static const std::vector<DonorSize> sizes = {
        {"seat_height", "seat height", 450, "common chair height, from memory"},
    };
    return sizes;
}

GenericDonor bareSeat(const SizeOf& size) {
    GenericDonor donor;
    const double z = size("seat_height");
    donor.seat.reference = Vec3(0, 0, z);
    donor.seat.leftHand = Vec3(350, 150, z + 220);
    donor.seat.rightHand = Vec3(350, -150, z + 220);
    return donor;
}

const std::vector<DonorSize>& ownSizes() {
    static const char* const unknown = "not known until you measure it; 0 = not known";
    static const std::vector<DonorSize> sizes =
        withWeights({{"seat_height", "seat height", 450, "common chair height, from memory"},
                     {"seat_back_x", "front of the seat back", 0, "over the donor's origin"},
                     {"sole_height", "what the feet stand on, above the ground", 100, "from memory"},
                     {"hands_x", "hands ahead of the seat back", 350, "from memory"},
                     {"hands_height", "hands above the seat", 220, "from memory"},
                     {"hands_spacing", "between the hands", 300, "from memory"}},
                    weightSizes(0, 0, 0, 0, 0, 0, unknown));
    return sizes;
}

GenericDonor ownDonor(const SizeOf& size) {
    GenericDonor donor;
    const double x = size("seat_back_x"), z = size("seat_height");
    donor.seat.reference = Vec3(x, 0, z);
    donor.seat.sole = size("sole_height");
    const Vec3 hands(x + size("hands_x"), 0, z + size("hands_height"));
    donor.seat.leftHand = hands + Vec3(0, size("hands_spacing") / 2, 0);
    donor.seat.rightHand = hands - Vec3(0, size("hands_spacing") / 2, 0);
    weigh(size, donor.chassis);
    return donor;
}

namespace {

const char* climbSource(double climb) {
    if (climb == 0) return "none is published: what its wheels can be pushed up is worked out";
    if (climb < 40) return "the least that US CMS asks of scooters of its group 1, from memory";
    return "the least that US CMS asks of powered chairs of its group 2; of group 3 it is 60 mm (HME "
           "Business, January 2019)";
}

} // namespace

std::vector<DonorSize> weightSizes(double mass, double centreX, double centreHeight, double rated,
                                   double speed, double climb, const char* source) {
    return {{"mass", "mass by itself, kg", mass, source, Kind::number},
            {"centre_x", "its centre of mass ahead of the axle", centreX, source},
            {"centre_height", "its centre of mass above the ground", centreHeight, source},
            {"rated_load", "load that it may carry, kg", rated, source, Kind::number},
            {"top_speed", "greatest speed, km/h", speed, source, Kind::number},
            {"climb", "step that it climbs, by its maker", climb, climbSource(climb)}};
}
std::vector<DonorSize> withWeights(std::vector<DonorSize> sizes, const std::vector<DonorSize>& weights) {
    sizes.insert(sizes.end(), weights.begin(), weights.end());
    return sizes;
}
void weigh(const SizeOf& size, Chassis& chassis) {
    chassis.mass = size("mass");
    chassis.centre = Vec3(size("centre_x"), 0, size("centre_height"));
    chassis.rated = size("rated_load");
    chassis.speed = size("top_speed") * 1e6 / 3600;
    chassis.climb = size("climb");
}

bool isPosition(const std::string& sizeName) {
    return sizeName.size() > 2 && sizeName.compare(sizeName.size() - 2, 2, "_x") == 0;
}

} // namespace slab
