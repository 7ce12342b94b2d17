#include "core/donor/parts.h"
#include <algorithm>

namespace slab {

// A rear-wheel powered chair: 600-680 mm wide, 1000-1200 mm long, seat 430-560 mm high (typical sizes, from
// memory). Measure the real one.
const std::vector<DonorSize>& rearWheelChairSizes() {
    static const char* const memory = "typical rear-wheel powered chair, from memory";
    static const std::vector<DonorSize> sizes =
        joined({{{"width", "width over the drive wheels", 640, memory},
                 {"drive_wheel_diameter", "drive wheel diameter", 350, memory},
                 {"drive_wheel_width", "drive wheel width", 80, memory}},
                casterSizes({500, 470, 220, 55, 280}, memory),
                baseSizes({380, -190, 400, 80}, memory),
                seatSizes({500, 480, 480, 80, -10, 520, 460, 90}, memory),
                armrestSizes({230, 330, 60, 500}, memory),
                footplateSizes({850, 220, 300, 90, 20}, memory),
                joystickSizes(385, memory),
                weightSizes(100, 170, 310, 136, 8, 40,
                            "mass 60 to 150 kg, rated 136 kg (300 lb), typical, from memory")});
    return sizes;
}

// A front-wheel powered chair, of the same range of sizes (from memory): drive wheels under the knees,
// casters behind.
const std::vector<DonorSize>& frontWheelChairSizes() {
    static const char* const memory = "typical front-wheel powered chair, from memory";
    static const std::vector<DonorSize> sizes =
        joined({{{"width", "width over the drive wheels", 640, memory},
                 {"drive_wheel_diameter", "drive wheel diameter", 350, memory},
                 {"drive_wheel_width", "drive wheel width", 80, memory}},
                casterSizes({-500, 420, 200, 55, 260}, memory),
                baseSizes({150, -420, 400, 80}, memory),
                seatSizes({490, 480, 480, 80, -400, 520, 460, 90}, memory),
                armrestSizes({230, 330, 60, 500}, memory),
                footplateSizes({400, 200, 320, 90, 20}, memory),
                joystickSizes(-5, memory),
                weightSizes(115, -190, 310, 136, 8, 40,
                            "mass 60 to 150 kg, rated 136 kg (300 lb), typical, from memory")});
    return sizes;
}

namespace {

GenericDonor driveEndChair(const SizeOf& size) {
    GenericDonor donor;
    const double r = size("drive_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("drive_wheel_width"), 0.0);
    const double swept = size("caster_trail") + size("caster_diameter") / 2;
    const double top = std::max(size("caster_height"), size("caster_diameter"));
    const double x = size("caster_x"), y = size("caster_spacing") / 2;
    for (const double side : {1.0, -1.0}) {
        const std::string word = side > 0 ? "left" : "right";
        donor.solids.push_back(wheelSolid(word + " drive wheel", 0, side, inside, outside, r));
        donor.solids.push_back(casterCircle(word + " caster circle", Vec3(x, side * y, 0), swept, top));
    }
    const double half = std::max(inside - 10, 10.0); // 10 mm between base and wheel, from memory
    const double under = std::min(size("ground_clearance"), size("base_height") - 1);
    donor.solids.push_back(
        part("base and battery box", makeBoxSolid(Vec3(size("base_back_x"), -half, under),
                                                  Vec3(size("base_front_x"), half, size("base_height")))));
    addSeat(size, donor.solids);
    addFootplate(size, donor.solids);
    addArmrests(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = size("footplate_height");
    addJoystick(size, donor);
    Chassis& c = donor.chassis;
    c.drive = DriveKind::pivot;
    addWheelPair(c, "drive wheel", {"", Vec3::Zero(), r, size("drive_wheel_width"), WheelRole::drive}, 0,
                 outside - size("drive_wheel_width") / 2);
    addWheelPair(
        c, "caster",
        {"", Vec3::Zero(), size("caster_diameter") / 2, casterWidth, WheelRole::caster, size("caster_trail")},
        x, y);
    weigh(size, c);
    addChairService(size, c);
    return donor;
}

} // namespace

GenericDonor rearWheelChair(const SizeOf& size) {
    return driveEndChair(size);
}
GenericDonor frontWheelChair(const SizeOf& size) {
    return driveEndChair(size);
}

} // namespace slab
