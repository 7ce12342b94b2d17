#include "core/donor/parts.h"
#include <algorithm>

namespace slab {

// A mid-wheel powered chair: 600-660 mm wide, 900-1150 mm long, seat 430-560 mm high (typical sizes, from
// memory). Measure the real one: every size can be changed by name.
const std::vector<DonorSize>& poweredChairSizes() {
    static const char* const memory = "typical mid-wheel powered chair, from memory";
    static const std::vector<DonorSize> sizes = withWeights(
        {
            {"width", "width over the drive wheels", 630, memory},
            {"drive_wheel_diameter", "drive wheel diameter", 340, memory},
            {"drive_wheel_width", "drive wheel width", 75, memory},
            {"front_caster_x", "front caster pivots ahead of the axle", 330, memory},
            {"rear_caster_x", "rear caster pivots ahead of the axle", -370, memory},
            {"caster_spacing", "between caster pivots, across", 460, memory},
            {"caster_diameter", "caster wheel diameter", 150, memory},
            {"caster_trail", "caster trail", 45, memory},
            {"caster_height", "caster fork height above the ground", 190, memory},
            {"base_front_x", "front of base and battery box", 300, memory},
            {"base_back_x", "back of base and battery box", -320, memory},
            {"base_height", "top of base and battery box", 400, memory},
            {"ground_clearance", "under the base", 70,
             "60 mm is asked of rail-transportable chairs; 70 from memory"},
            {"seat_height", "seat height", 480, "430 to 560 mm, from memory"},
            {"seat_width", "seat width", 480, memory},
            {"seat_depth", "seat depth", 480, memory},
            {"seat_thickness", "seat thickness", 80, memory},
            {"seat_back_x", "front of the seat back", -230, memory},
            {"back_height", "seat back above the seat", 520, memory},
            {"back_width", "seat back width", 460, memory},
            {"back_thickness", "seat back thickness", 90, memory},
            {"armrest_height", "armrest top above the seat", 230, memory},
            {"armrest_length", "armrest length", 330, memory},
            {"armrest_width", "armrest width", 60, memory},
            {"armrest_spacing", "between the armrests", 500, memory},
            {"footplate_front_x", "front of the footplate", 560, memory},
            {"footplate_length", "footplate length", 280, memory},
            {"footplate_width", "footplate width", 360, memory},
            {"footplate_height", "footplate top above the ground", 75, memory},
            {"footplate_thickness", "footplate thickness", 20, memory},
            {"joystick_x", "joystick ahead of the axle", 165, memory},
            {"joystick_length", "joystick box length", 120, memory},
            {"joystick_width", "joystick box width", 70, memory},
            {"joystick_height", "joystick box and stick above the armrest", 110, memory},
            {"hand_room", "room for the hand round the joystick", 160,
             "fist 105 mm and stick travel, from memory"},
        },
        weightSizes(110, -40, 300, 136, 8, 40,
                    "mass 60 to 150 kg, rated 136 kg (300 lb), typical, from memory"));
    return sizes;
}

namespace {

void addRunningGear(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double r = size("drive_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("drive_wheel_width"), 0.0);
    const double swept = size("caster_trail") + size("caster_diameter") / 2;
    const double top = std::max(size("caster_height"), size("caster_diameter"));
    for (const double side : {1.0, -1.0}) {
        const std::string word = side > 0 ? "left" : "right";
        solids.push_back(wheelSolid(word + " drive wheel", 0, side, inside, outside, r));
        for (const char* end : {"front", "rear"}) {
            const double x = size(end == std::string("front") ? "front_caster_x" : "rear_caster_x");
            solids.push_back(casterCircle(std::string(end) + " " + word + " caster circle",
                                          Vec3(x, side * size("caster_spacing") / 2, 0), swept, top));
        }
    }
    const double half = std::max(inside - 10, 10.0); // 10 mm between base and wheel, from memory
    const double under = std::min(size("ground_clearance"), size("base_height") - 1);
    solids.push_back(
        part("base and battery box", makeBoxSolid(Vec3(size("base_back_x"), -half, under),
                                                  Vec3(size("base_front_x"), half, size("base_height")))));
}

/// Drive wheels turn it on the spot; casters follow.
Chassis chairChassis(const SizeOf& size) {
    Chassis c;
    c.drive = DriveKind::pivot;
    addWheelPair(
        c, "drive wheel",
        {"", Vec3::Zero(), size("drive_wheel_diameter") / 2, size("drive_wheel_width"), WheelRole::drive}, 0,
        size("width") / 2 - size("drive_wheel_width") / 2);
    for (const char* end : {"front", "rear"})
        for (const double side : {1.0, -1.0}) {
            const double x = size(end == std::string("front") ? "front_caster_x" : "rear_caster_x");
            c.wheels.push_back({std::string(end) + (side > 0 ? " left caster" : " right caster"),
                                Vec3(x, side * size("caster_spacing") / 2, 0), size("caster_diameter") / 2,
                                casterWidth, WheelRole::caster, size("caster_trail")});
        }
    weigh(size, c);
    addChairService(size, c);
    return c;
}

} // namespace

GenericDonor poweredChair(const SizeOf& size) {
    GenericDonor donor;
    addRunningGear(size, donor.solids);
    addSeat(size, donor.solids);
    addFootplate(size, donor.solids);
    addArmrests(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = size("footplate_height");
    addJoystick(size, donor);
    donor.chassis = chairChassis(size);
    return donor;
}

} // namespace slab
