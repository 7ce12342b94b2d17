#include "core/donor/parts.h"
#include <algorithm>
#include <numbers>

namespace slab {

// A garden tractor without its mower deck: 1650-1900 mm long, 850-1000 mm wide (typical sizes, from memory).
const std::vector<DonorSize>& gardenTractorSizes() {
    static const char* const memory = "typical garden tractor, from memory";
    static const std::vector<DonorSize> sizes = joined(
        {fourWheelSizes({920, 860, 1240, 510, 220, 380, 150}, memory),
         {{"hood_front_x", "front of the hood", 1500, memory},
          {"hood_back_x", "back of the hood", 780, memory},
          {"hood_width", "hood width", 480, memory},
          {"hood_height", "top of the hood", 900, memory},
          {"ground_clearance", "under the frame", 170, memory},
          {"frame_height", "top of the frame", 330, memory},
          {"fender_back_x", "back of the fenders", -330, memory},
          {"fender_front_x", "front of the fenders", 330, memory},
          {"fender_height", "top of the fenders", 620, memory},
          {"footrest_height", "footrests above the ground", 320, memory},
          {"footrest_length", "footrest length", 430, memory},
          {"footrest_width", "over both footrests", 840, memory}},
         seatSizes({700, 460, 420, 80, 40, 380, 440, 90}, memory),
         steeringSizes({800, 700, 620, 940, 360, 40 * std::numbers::pi / 180}, memory),
         weightSizes(190, 480, 430, 130, 8, 0, "mass 160 to 260 kg, one rider, 8 to 9 km/h, from memory")});
    return sizes;
}

namespace {

void addTractorBody(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double half = size("hood_width") / 2, front = size("hood_front_x"), back = size("hood_back_x");
    const double frame = size("frame_height"), under = std::min(size("ground_clearance"), frame - 1);
    const double between = betweenRearWheels(size);
    solids.push_back(part("frame", makeBoxSolid(Vec3(size("fender_back_x"), -std::min(half, between), under),
                                                Vec3(front, std::min(half, between), frame))));
    solids.push_back(part("hood", makeBoxSolid(Vec3(back, -half, frame),
                                               Vec3(front, half, std::max(size("hood_height"), frame + 1)))));
    const double tyre = size("rear_wheel_diameter");
    const double fender = std::max(size("fender_height"), tyre + 21);
    solids.push_back(part("fenders", makeBoxSolid(Vec3(size("fender_back_x"), -size("width") / 2, tyre + 20),
                                                  Vec3(size("fender_front_x"), size("width") / 2, fender))));
    const double out = size("footrest_width") / 2, z = size("footrest_height");
    for (const double side : {1.0, -1.0})
        solids.push_back(
            part(side > 0 ? "left footrest" : "right footrest",
                 makeBoxSolid(Vec3(back - size("footrest_length"), std::min(0.0, side * out), z - 20),
                              Vec3(back, std::max(0.0, side * out), z))));
}

} // namespace

GenericDonor gardenTractor(const SizeOf& size) {
    GenericDonor donor;
    addFourWheels(size, WheelRole::drive, donor);
    addTractorBody(size, donor.solids);
    addSeat(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = size("footrest_height");
    addSteeringWheel(size, donor);
    Chassis& c = donor.chassis;
    const double hood = size("hood_height"), half = size("hood_width") / 2, back = size("hood_back_x");
    addService(c, "key", Vec3(back, -half / 2, hood - 60), -Vec3::UnitX());
    addService(c, "fuel cap", Vec3(back + 120, 0, hood), Vec3::UnitZ());
    addService(c, "dipstick", Vec3((back + size("hood_front_x")) / 2, -half, hood - 150), -Vec3::UnitY());
    addService(c, "brake pedal", Vec3(back - 100, -half - 100, size("footrest_height") + 80), Vec3::UnitZ());
    addService(c, "freewheel lever", Vec3(size("fender_back_x"), 0, size("frame_height") - 50),
               -Vec3::UnitX(), 100);
    return donor;
}

} // namespace slab
