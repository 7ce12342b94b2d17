#include "core/donor/parts.h"
#include <algorithm>

namespace slab {

// A self-propelled chair: 600-700 mm wide over the handrims, 950-1150 mm long, 900-1000 mm high (typical
// sizes, from memory; at most 1200 x 700 x 1090 mm, ISO 7193, from memory). Measure the real one.
const std::vector<DonorSize>& selfPropelledSizes() {
    static const char* const memory = "typical self-propelled chair, from memory";
    static const std::vector<DonorSize> sizes =
        joined({{{"width", "width over the handrims", 640, memory},
                 {"wheel_diameter", "rear wheel diameter", 610, "24 in, common practice"},
                 {"wheel_width", "rear wheel and handrim, across", 65, memory},
                 {"hand_room", "room for hands outside the handrims", 50,
                  "50 mm a side is asked for rail transport"}},
                casterSizes({400, 420, 150, 45, 230}, memory),
                baseSizes({370, -60, 440, 180}, memory),
                seatSizes({510, 440, 430, 50, -20, 420, 430, 40}, memory),
                armrestSizes({230, 330, 40, 450}, memory),
                footplateSizes({720, 180, 340, 110, 20}, memory),
                handleSizes(940, 110, 420, memory),
                weightSizes(17, 110, 420, 115, 5, 0,
                            "mass 12 to 20 kg, rated 100 to 125 kg, walking speed, from memory")});
    return sizes;
}

// A chair that is pushed: small rear wheels, 540-620 mm wide (typical sizes, from memory).
const std::vector<DonorSize>& pushedSizes() {
    static const char* const memory = "typical pushed chair, from memory";
    static const std::vector<DonorSize> sizes =
        joined({{{"width", "width over the rear wheels", 570, memory},
                 {"wheel_diameter", "rear wheel diameter", 305, "12 in, common practice"},
                 {"wheel_width", "rear wheel width", 45, memory},
                 {"helper_room", "room behind the handles for who pushes", 600, memory},
                 {"helper_width", "width of that room", 600, memory},
                 {"helper_height", "height of that room", 1870, "stature, 95th percentile man, ANSUR II"}},
                casterSizes({420, 420, 175, 45, 240}, memory),
                baseSizes({390, -60, 440, 180}, memory),
                seatSizes({490, 440, 430, 50, -20, 420, 430, 40}, memory),
                armrestSizes({230, 330, 40, 450}, memory),
                footplateSizes({760, 180, 340, 110, 20}, memory),
                handleSizes(940, 120, 420, memory),
                weightSizes(15, 130, 400, 115, 5, 0,
                            "mass 10 to 18 kg, rated 100 to 125 kg, walking speed, from memory")});
    return sizes;
}

namespace {

void addFrame(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double r = size("wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("wheel_width"), 0.0);
    const double swept = size("caster_trail") + size("caster_diameter") / 2;
    const double top = std::max(size("caster_height"), size("caster_diameter"));
    for (const double side : {1.0, -1.0}) {
        const std::string word = side > 0 ? "left" : "right";
        solids.push_back(wheelSolid(word + " rear wheel", 0, side, inside, outside, r));
        solids.push_back(casterCircle(word + " caster circle",
                                      Vec3(size("caster_x"), side * size("caster_spacing") / 2, 0), swept,
                                      top));
    }
    const double half = std::max(inside - 10, 10.0); // 10 mm between frame and wheel, from memory
    const double under = std::min(size("ground_clearance"), size("base_height") - 1);
    solids.push_back(part("frame", makeBoxSolid(Vec3(size("base_back_x"), -half, under),
                                                Vec3(size("base_front_x"), half, size("base_height")))));
}

/// A rear axle that stays straight, casters ahead; somebody's strength moves it.
Chassis manualChassis(const SizeOf& size, DriveKind drive) {
    Chassis c;
    c.drive = drive;
    const WheelRole role = drive == DriveKind::pivot ? WheelRole::drive : WheelRole::fixed;
    addWheelPair(c, "rear wheel", {"", Vec3::Zero(), size("wheel_diameter") / 2, size("wheel_width"), role},
                 0, size("width") / 2 - size("wheel_width") / 2);
    addWheelPair(
        c, "caster",
        {"", Vec3::Zero(), size("caster_diameter") / 2, casterWidth, WheelRole::caster, size("caster_trail")},
        size("caster_x"), size("caster_spacing") / 2);
    weigh(size, c);
    return c;
}

GenericDonor manualChair(const SizeOf& size, DriveKind drive) {
    GenericDonor donor;
    addFrame(size, donor.solids);
    addSeat(size, donor.solids);
    addFootplate(size, donor.solids);
    addArmrests(size, donor.solids);
    addPushHandles(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = size("footplate_height");
    donor.chassis = manualChassis(size, drive);
    return donor;
}

} // namespace

GenericDonor selfPropelledChair(const SizeOf& size) {
    GenericDonor donor = manualChair(size, DriveKind::pivot);
    const double d = size("wheel_diameter"), outside = size("width") / 2, room = size("hand_room");
    for (const double side : {1.0, -1.0}) {
        const double y = side * outside, out = side * (outside + room);
        // Hands push from behind the top of the rim to its front, and the rim's upper half is what they hold.
        donor.solids.push_back(
            part(side > 0 ? "left hand on the rim" : "right hand on the rim",
                 makeBoxSolid(Vec3(-d / 4, std::min(y, out), d / 2), Vec3(d / 2, std::max(y, out), d + room)),
                 true, "the hand's way along the handrim"));
        addService(donor.chassis, side > 0 ? "left brake" : "right brake",
                   Vec3(d / 2 + 20, side * (outside - size("wheel_width")), d * 0.8), Vec3::Zero());
    }
    donor.seat.leftHand = Vec3(d / 8, outside - size("wheel_width") / 2, d);
    donor.seat.rightHand = Vec3(d / 8, -(outside - size("wheel_width") / 2), d);
    return donor;
}

GenericDonor pushedChair(const SizeOf& size) {
    GenericDonor donor = manualChair(size, DriveKind::pushed);
    const double back = size("seat_back_x") - size("back_thickness"), z = size("handle_height");
    const double end = back - size("handle_length"), y = size("handle_spacing") / 2;
    for (const double side : {1.0, -1.0})
        donor.solids.push_back(
            keptFree(part(side > 0 ? "left pushing hand" : "right pushing hand",
                          makeCapsule(Vec3(end, side * y, z), Vec3(end + 90, side * y, z), 50), true,
                          "hand round the push handle, from memory")));
    const double half = size("helper_width") / 2;
    donor.solids.push_back(keptFree(
        part("helper's room",
             makeBoxSolid(Vec3(end - size("helper_room"), -half, 0), Vec3(end, half, size("helper_height"))),
             true, "who pushes walks here")));
    const double arm = size("seat_height") + size("armrest_height");
    const double armY = (size("armrest_spacing") + size("armrest_width")) / 2;
    const double armX = size("seat_back_x") + 60 + size("armrest_length") - 50;
    donor.seat.leftHand = Vec3(armX, armY, arm + 30);
    donor.seat.rightHand = Vec3(armX, -armY, arm + 30);
    for (const double side : {1.0, -1.0})
        addService(donor.chassis, side > 0 ? "left brake" : "right brake",
                   Vec3(-size("wheel_diameter") / 2, side * (size("width") / 2 - size("wheel_width") - 20),
                        size("wheel_diameter") / 2),
                   -Vec3::UnitX());
    return donor;
}

} // namespace slab
