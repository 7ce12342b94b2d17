#include "core/donor/generic.h"
#include <algorithm>
#include <cmath>

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
        weightSizes(110, -40, 300, 136, 8, "mass 60 to 150 kg, rated 136 kg (300 lb), typical, from memory"));
    return sizes;
}

namespace {

constexpr double casterWidth = 45; ///< mm, from memory

void addRunningGear(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double r = size("drive_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("drive_wheel_width"), 0.0);
    const double swept = size("caster_trail") + size("caster_diameter") / 2;
    const double top = std::max(size("caster_height"), size("caster_diameter"));
    for (const double side : {1.0, -1.0}) {
        const std::string word = side > 0 ? "left" : "right";
        solids.push_back(part(word + " drive wheel",
                              makeCylinder(Vec3(0, side * inside, r), Vec3(0, side * outside, r), r), true,
                              "turning wheel: 20 mm, common practice"));
        for (const char* end : {"front", "rear"}) {
            const double x = size(end == std::string("front") ? "front_caster_x" : "rear_caster_x");
            const double y = side * size("caster_spacing") / 2;
            solids.push_back(part(std::string(end) + " " + word + " caster circle",
                                  makeCylinder(Vec3(x, y, 0), Vec3(x, y, top), swept), true,
                                  "trail + wheel radius, common practice"));
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
    const double y = size("width") / 2 - size("drive_wheel_width") / 2;
    for (const double side : {1.0, -1.0})
        c.wheels.push_back({side > 0 ? "left drive wheel" : "right drive wheel", Vec3(0, side * y, 0),
                            size("drive_wheel_diameter") / 2, size("drive_wheel_width"), WheelRole::drive});
    for (const char* end : {"front", "rear"})
        for (const double side : {1.0, -1.0}) {
            const double x = size(end == std::string("front") ? "front_caster_x" : "rear_caster_x");
            c.wheels.push_back({std::string(end) + (side > 0 ? " left caster" : " right caster"),
                                Vec3(x, side * size("caster_spacing") / 2, 0), size("caster_diameter") / 2,
                                casterWidth, WheelRole::caster, size("caster_trail")});
        }
    weigh(size, c);
    return c;
}

void addChairSeat(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("seat_back_x"), z = size("seat_height");
    const double halfSeat = size("seat_width") / 2, halfBack = size("back_width") / 2;
    const double front = size("footplate_front_x"), sole = size("footplate_height");
    solids.push_back(part("seat", makeBoxSolid(Vec3(back, -halfSeat, z - size("seat_thickness")),
                                               Vec3(back + size("seat_depth"), halfSeat, z))));
    solids.push_back(part("seat back", makeBoxSolid(Vec3(back - size("back_thickness"), -halfBack, z),
                                                    Vec3(back, halfBack, z + size("back_height")))));
    solids.push_back(
        part("footplate", makeBoxSolid(Vec3(front - size("footplate_length"), -size("footplate_width") / 2,
                                            sole - size("footplate_thickness")),
                                       Vec3(front, size("footplate_width") / 2, sole))));
    const double inner = size("armrest_spacing") / 2, outer = inner + size("armrest_width");
    const double top = z + size("armrest_height");
    for (const double side : {1.0, -1.0})
        solids.push_back(part(side > 0 ? "left armrest" : "right armrest",
                              makeBoxSolid(Vec3(back + 60, std::min(side * inner, side * outer), top - 50),
                                           Vec3(back + 60 + size("armrest_length"),
                                                std::max(side * inner, side * outer), top))));
}

} // namespace

GenericDonor poweredChair(const SizeOf& size) {
    GenericDonor donor;
    addRunningGear(size, donor.solids);
    addChairSeat(size, donor.solids);
    const double armTop = size("seat_height") + size("armrest_height");
    const double y = -(size("armrest_spacing") + size("armrest_width")) / 2;
    const double x = size("joystick_x"), tall = size("joystick_height"), room = size("hand_room") / 2;
    const Vec3 half(size("joystick_length") / 2, size("joystick_width") / 2, 0);
    donor.solids.push_back(part(
        "joystick box", makeBoxSolid(Vec3(x, y, armTop - 50) - half, Vec3(x, y, armTop + tall / 2) + half)));
    const Vec3 knob(x, y, armTop + tall);
    donor.solids.push_back(
        part("joystick hand", makeBoxSolid(knob - Vec3(room, room, tall / 2), knob + Vec3(room, room, room)),
             true, "the hand's room round the stick"));
    donor.seat.reference = Vec3(size("seat_back_x"), 0, size("seat_height"));
    donor.seat.sole = size("footplate_height");
    donor.seat.rightHand = knob;
    donor.seat.leftHand = Vec3(x - 60, -y, armTop + 30);
    donor.chassis = chairChassis(size);
    return donor;
}

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

std::vector<DonorSize> weightSizes(double mass, double centreX, double centreHeight, double rated,
                                   double speed, const char* source) {
    return {{"mass", "mass by itself, kg", mass, source, Kind::number},
            {"centre_x", "its centre of mass ahead of the axle", centreX, source},
            {"centre_height", "its centre of mass above the ground", centreHeight, source},
            {"rated_load", "load that it may carry, kg", rated, source, Kind::number},
            {"top_speed", "greatest speed, km/h", speed, source, Kind::number}};
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
}

bool isPosition(const std::string& sizeName) {
    return sizeName.size() > 2 && sizeName.compare(sizeName.size() - 2, 2, "_x") == 0;
}

} // namespace slab
