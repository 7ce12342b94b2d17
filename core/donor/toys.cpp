#include "core/donor/parts.h"
#include <algorithm>
#include <numbers>

namespace slab {

namespace {

constexpr double degree = std::numbers::pi / 180;

} // namespace

// A battery ride-on toy for one child: 950-1300 mm long, 550-750 mm wide (typical sizes, from memory).
const std::vector<DonorSize>& rideOnSizes() {
    static const char* const memory = "typical battery ride-on toy, from memory";
    static const std::vector<DonorSize> sizes =
        joined({fourWheelSizes({620, 620, 650, 250, 110, 250, 110}, memory),
                {{"body_front_x", "front of the body", 860, memory},
                 {"body_back_x", "back of the body", -220, memory},
                 {"body_height", "top of the body's sills", 190, memory},
                 {"ground_clearance", "under the body", 70, memory},
                 {"bonnet_back_x", "back of the bonnet", 520, memory},
                 {"bonnet_height", "top of the bonnet", 380, memory}},
                seatSizes({240, 300, 280, 40, 10, 270, 290, 50}, memory),
                steeringSizes({540, 330, 400, 430, 210, 25 * degree}, memory),
                weightSizes(17, 290, 170, 30, 5, 0,
                            "mass 12 to 25 kg, one child up to 30 kg, 3 to 5 km/h, from memory")});
    return sizes;
}

GenericDonor rideOn(const SizeOf& size) {
    GenericDonor donor;
    addFourWheels(size, WheelRole::drive, donor);
    const double half = betweenRearWheels(size), sill = size("body_height");
    donor.solids.push_back(part(
        "body", makeBoxSolid(Vec3(size("body_back_x"), -half, std::min(size("ground_clearance"), sill - 1)),
                             Vec3(size("body_front_x"), half, sill))));
    donor.solids.push_back(part(
        "bonnet", makeBoxSolid(Vec3(size("bonnet_back_x"), -half, sill),
                               Vec3(size("body_front_x"), half, std::max(size("bonnet_height"), sill + 1)))));
    addSeat(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = sill;
    addSteeringWheel(size, donor);
    const double top = size("wheel_centre_height");
    addService(donor.chassis, "switch", Vec3(size("bonnet_back_x"), -half / 2, size("bonnet_height")),
               Vec3::Zero(), 80);
    addService(donor.chassis, "charge port", Vec3(size("bonnet_back_x"), half / 2, (sill + top) / 2),
               -Vec3::UnitX(), 80);
    addService(donor.chassis, "battery",
               Vec3(size("seat_back_x") + size("seat_depth") / 2, 0, size("seat_height")), Vec3::UnitZ(),
               150);
    return donor;
}

// A wagon that is pulled by its handle: bed 850-1000 x 400-500 mm (typical sizes, from memory). The front
// axle turns as a whole.
const std::vector<DonorSize>& wagonSizes() {
    static const char* const memory = "typical pulled wagon, from memory";
    static const std::vector<DonorSize> sizes =
        joined({fourWheelSizes({520, 520, 640, 260, 60, 260, 60}, memory),
                {{"steering_lock", "front axle turns to either side by", 40 * degree, memory, Kind::angle},
                 {"bed_front_x", "front of the bed", 790, memory},
                 {"bed_back_x", "back of the bed", -150, memory},
                 {"bed_width", "bed width", 460, memory},
                 {"bed_height", "bed floor above the ground", 330, memory},
                 {"bed_thickness", "bed floor thickness", 30, memory},
                 {"rail_height", "sides above the bed floor", 150, memory},
                 {"seat_back_x", "back of who sits in it", -110, memory},
                 {"handle_length", "handle, from the front axle", 800, memory},
                 {"handle_height", "handle's grip above the ground, pulled", 720, memory},
                 {"puller_room", "room ahead of the grip for who pulls", 600, memory},
                 {"puller_width", "width of that room", 600, memory},
                 {"puller_height", "height of that room", 1870, "stature, 95th percentile man, ANSUR II"}},
                weightSizes(18, 320, 270, 90, 5, 0,
                            "mass 12 to 30 kg, rated 70 to 150 kg, walking speed, from memory")});
    return sizes;
}

namespace {

void addBed(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("bed_back_x"), front = size("bed_front_x"), half = size("bed_width") / 2;
    const double floor = size("bed_height"), top = floor + size("rail_height"), board = 20;
    solids.push_back(part(
        "bed", makeBoxSolid(Vec3(back, -half, floor - size("bed_thickness")), Vec3(front, half, floor))));
    for (const double side : {1.0, -1.0}) {
        const double out = side * half, in = side * (half - board);
        solids.push_back(
            part(side > 0 ? "left side" : "right side",
                 makeBoxSolid(Vec3(back, std::min(in, out), floor), Vec3(front, std::max(in, out), top))));
    }
    solids.push_back(
        part("front board", makeBoxSolid(Vec3(front - board, -half, floor), Vec3(front, half, top))));
    solids.push_back(
        part("back board", makeBoxSolid(Vec3(back, -half, floor), Vec3(back + board, half, top))));
}

/// The handle's way from side to side, as a fan about the front axle's middle.
ConvexSolid handleSweep(const Vec3& root, double ahead, double grip, double lock) {
    constexpr int steps = 4;
    ConvexSolid s;
    s.radius = 30;
    s.points.push_back(root);
    const double reach = ahead / std::cos(lock / steps);
    for (int i = 0; i <= steps; ++i) {
        const double a = lock * (2.0 * i / steps - 1);
        s.points.emplace_back(root.x() + reach * std::cos(a), reach * std::sin(a), grip);
    }
    return s;
}

} // namespace

GenericDonor wagon(const SizeOf& size) {
    GenericDonor donor;
    addFourWheels(size, WheelRole::fixed, donor);
    addBed(size, donor.solids);
    const Vec3 root(size("wheelbase"), 0, size("front_wheel_diameter") / 2);
    const double grip = size("handle_height"), rise = grip - root.z(), length = size("handle_length");
    const double ahead = std::sqrt(std::max(length * length - rise * rise, 1.0));
    donor.solids.push_back(
        keptFree(part("handle sweep", handleSweep(root, ahead, grip, size("steering_lock")), true,
                      "the handle, as far as the front axle turns to each side")));
    const double half = size("puller_width") / 2, x = root.x() + ahead;
    donor.solids.push_back(keptFree(
        part("puller's room",
             makeBoxSolid(Vec3(x, -half, 0), Vec3(x + size("puller_room"), half, size("puller_height"))),
             true, "who pulls walks here")));
    const double floor = size("bed_height"), edge = floor + size("rail_height");
    donor.seat.reference = Vec3(size("seat_back_x"), 0, floor);
    donor.seat.sole = floor;
    donor.seat.leftHand = Vec3(size("seat_back_x") + 350, size("bed_width") / 2, edge);
    donor.seat.rightHand = Vec3(size("seat_back_x") + 350, -size("bed_width") / 2, edge);
    addService(donor.chassis, "handle's pin", root + Vec3(40, 0, 0), Vec3::UnitX());
    return donor;
}

// A pedal kart: 1050-1700 mm long, 650-850 mm wide (typical sizes, from memory).
const std::vector<DonorSize>& pedalKartSizes() {
    static const char* const memory = "typical pedal kart, from memory";
    static const std::vector<DonorSize> sizes =
        joined({fourWheelSizes({780, 760, 880, 400, 90, 400, 90}, memory),
                {{"frame_front_x", "front of the frame", 1080, memory},
                 {"frame_back_x", "back of the frame", -150, memory},
                 {"frame_width", "frame width", 200, memory},
                 {"frame_height", "top of the frame", 250, memory},
                 {"ground_clearance", "under the frame", 110, memory},
                 {"pedal_x", "pedal axle ahead of the rear axle", 800, memory},
                 {"pedal_height", "pedal axle above the ground", 300, memory},
                 {"crank_length", "crank length", 110, memory},
                 {"foot_room", "foot and shoe beyond the pedal", 110, memory},
                 {"pedal_width", "over both pedals and feet", 420, memory}},
                seatSizes({310, 360, 340, 50, 60, 360, 340, 40}, memory),
                steeringSizes({700, 420, 500, 560, 300, 30 * degree}, memory),
                weightSizes(30, 400, 260, 100, 12, 0,
                            "mass 20 to 45 kg, rated 50 to 120 kg, 8 to 15 km/h, from memory")});
    return sizes;
}

GenericDonor pedalKart(const SizeOf& size) {
    GenericDonor donor;
    addFourWheels(size, WheelRole::drive, donor);
    const double half = size("frame_width") / 2, top = size("frame_height");
    donor.solids.push_back(part(
        "frame", makeBoxSolid(Vec3(size("frame_back_x"), -half, std::min(size("ground_clearance"), top - 1)),
                              Vec3(size("frame_front_x"), half, top))));
    const double x = size("pedal_x"), z = size("pedal_height"), y = size("pedal_width") / 2;
    donor.solids.push_back(
        part("pedals and feet",
             makeCylinder(Vec3(x, -y, z), Vec3(x, y, z), size("crank_length") + size("foot_room")), true,
             "pedals going round, with the feet on them"));
    addSeat(size, donor.solids);
    donor.seat = seatOf(size);
    donor.seat.sole = std::max(z - size("crank_length"), 0.0);
    addSteeringWheel(size, donor);
    addService(
        donor.chassis, "hand brake",
        Vec3(size("seat_back_x") + size("seat_depth"), -size("seat_width") / 2 - 40, size("seat_height")),
        Vec3::UnitZ());
    addService(donor.chassis, "chain", Vec3(x / 2, half, top), Vec3::Zero());
    addService(donor.chassis, "seat bolt",
               Vec3(size("seat_back_x") + size("seat_depth") / 2, -half, top - 20), -Vec3::UnitY());
    return donor;
}

} // namespace slab
