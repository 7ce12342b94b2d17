#include "core/donor/parts.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double gripRadius = 25; ///< mm, from memory
constexpr double handDepth = 60;  ///< knuckles round a steering wheel's rim, mm, from memory
constexpr double regrip =
    std::numbers::pi / 2;           ///< a steering wheel turns so far before the hands let go, from memory
constexpr double columnRadius = 20; ///< mm, from memory

} // namespace

FitSolid wheelSolid(std::string name, double x, double side, double inside, double outside, double radius) {
    return part(std::move(name),
                makeCylinder(Vec3(x, side * inside, radius), Vec3(x, side * outside, radius), radius), true,
                "turning wheel: 20 mm, common practice");
}

FitSolid casterCircle(std::string name, const Vec3& pivot, double swept, double top) {
    return part(std::move(name), makeCylinder(pivot, pivot + Vec3(0, 0, top), swept), true,
                "trail + wheel radius, common practice");
}

FitSolid steeredCircle(std::string name, const Vec3& at, double diameter, double width) {
    return part(std::move(name), makeCylinder(at, at + Vec3(0, 0, diameter), std::hypot(diameter, width) / 2),
                true, "the steered wheel's swept circle");
}

void addSeat(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("seat_back_x"), z = size("seat_height");
    const double halfSeat = size("seat_width") / 2, halfBack = size("back_width") / 2;
    solids.push_back(part("seat", makeBoxSolid(Vec3(back, -halfSeat, z - size("seat_thickness")),
                                               Vec3(back + size("seat_depth"), halfSeat, z))));
    solids.push_back(part("seat back", makeBoxSolid(Vec3(back - size("back_thickness"), -halfBack, z),
                                                    Vec3(back, halfBack, z + size("back_height")))));
}

void addFootplate(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double front = size("footplate_front_x"), sole = size("footplate_height");
    solids.push_back(
        part("footplate", makeBoxSolid(Vec3(front - size("footplate_length"), -size("footplate_width") / 2,
                                            sole - size("footplate_thickness")),
                                       Vec3(front, size("footplate_width") / 2, sole))));
}

void addArmrests(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("seat_back_x");
    const double inner = size("armrest_spacing") / 2, outer = inner + size("armrest_width");
    const double top = size("seat_height") + size("armrest_height");
    for (const double side : {1.0, -1.0})
        solids.push_back(part(side > 0 ? "left armrest" : "right armrest",
                              makeBoxSolid(Vec3(back + 60, std::min(side * inner, side * outer), top - 50),
                                           Vec3(back + 60 + size("armrest_length"),
                                                std::max(side * inner, side * outer), top))));
}

void addJoystick(const SizeOf& size, GenericDonor& donor) {
    const double armTop = size("seat_height") + size("armrest_height");
    const double y = -(size("armrest_spacing") + size("armrest_width")) / 2;
    const double x = size("joystick_x"), tall = size("joystick_height"), room = size("hand_room") / 2;
    const Vec3 half(size("joystick_length") / 2, size("joystick_width") / 2, 0);
    donor.solids.push_back(part(
        "joystick box", makeBoxSolid(Vec3(x, y, armTop - 50) - half, Vec3(x, y, armTop + tall / 2) + half)));
    const Vec3 knob(x, y, armTop + tall);
    donor.solids.push_back(keptFree(
        part("joystick hand", makeBoxSolid(knob - Vec3(room, room, tall / 2), knob + Vec3(room, room, room)),
             true, "the hand's room round the stick")));
    donor.seat.rightHand = knob;
    donor.seat.leftHand = Vec3(x - 60, -y, armTop + 30);
}

/// Everything that the bar passes over between full left and full right: both arcs, at two heights along the
/// tiller. Corners stand a little outside the arcs, so that the facets hold them.
ConvexSolid handlebarSweep(const Vec3& top, const Vec3& axis, double halfSpan, double room, double angle) {
    constexpr int steps = 4;
    const double step = 2 * angle / steps;
    const double reach = std::hypot(halfSpan, gripRadius) / std::cos(step / 2);
    const Vec3 across = Vec3::UnitY();
    const Vec3 ahead = across.cross(axis).normalized();
    ConvexSolid s;
    for (const double side : {1.0, -1.0})
        for (const double height : {-room / 2, room / 2})
            for (int i = 0; i <= steps; ++i) {
                const double a = -angle + i * step;
                s.points.push_back(top + height * axis +
                                   side * reach * (std::cos(a) * across + std::sin(a) * ahead));
            }
    return s;
}

void addSteeringWheel(const SizeOf& size, GenericDonor& donor) {
    const Vec3 foot(size("column_foot_x"), 0, size("column_foot_height"));
    const Vec3 top(size("wheel_centre_x"), 0, std::max(size("wheel_centre_height"), foot.z() + 1));
    const Vec3 axis = (top - foot).normalized();
    const double rim = size("steering_wheel_diameter") / 2;
    donor.solids.push_back(part("steering column", makeCapsule(foot, top, columnRadius)));
    donor.solids.push_back(part("steering wheel and hands",
                                makeCylinder(top - axis * handDepth, top + axis * handDepth, rim + handDepth),
                                true, "wheel and the hands that go round with it, from memory"));
    donor.seat.leftHand = top + Vec3(0, rim, 0);
    donor.seat.rightHand = top - Vec3(0, rim, 0);
    donor.seat.helm = top;
    donor.seat.helmAxis = axis;
    donor.seat.helmTurn = regrip;
}

void addPushHandles(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("seat_back_x") - size("back_thickness"), z = size("handle_height");
    for (const double side : {1.0, -1.0}) {
        const Vec3 root(back, side * size("handle_spacing") / 2, z);
        solids.push_back(part(side > 0 ? "left push handle" : "right push handle",
                              makeCapsule(root, root - Vec3(size("handle_length"), 0, 0), 15)));
    }
}

void addWheelPair(Chassis& chassis, const std::string& name, const Wheel& like, double x, double y) {
    for (const double side : {1.0, -1.0}) {
        Wheel w = like;
        w.name = (side > 0 ? "left " : "right ") + name;
        w.at = Vec3(x, side * y, 0);
        chassis.wheels.push_back(std::move(w));
    }
}

double betweenRearWheels(const SizeOf& size) {
    return std::max(size("width") / 2 - size("rear_wheel_width") - 10, 10.0);
}

void addFourWheels(const SizeOf& size, WheelRole rear, GenericDonor& donor) {
    const double r = size("rear_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("rear_wheel_width"), 0.0);
    const double x = size("wheelbase"), d = size("front_wheel_diameter"), w = size("front_wheel_width");
    const double y = std::max((size("front_width") - w) / 2, 0.0);
    for (const double side : {1.0, -1.0})
        donor.solids.push_back(
            wheelSolid(side > 0 ? "left rear wheel" : "right rear wheel", 0, side, inside, outside, r));
    for (const double side : {1.0, -1.0})
        donor.solids.push_back(steeredCircle(
            side > 0 ? "left front wheel circle" : "right front wheel circle", Vec3(x, side * y, 0), d, w));
    Chassis& c = donor.chassis;
    c.drive = DriveKind::steered;
    addWheelPair(c, "rear wheel", {"", Vec3::Zero(), r, size("rear_wheel_width"), rear}, 0,
                 (outside + inside) / 2);
    addWheelPair(c, "front wheel", {"", Vec3::Zero(), d / 2, w, WheelRole::steered, 0, size("steering_lock")},
                 x, y);
    c.wheelbase = x;
    c.lock = size("steering_lock");
    weigh(size, c);
}

Seat seatOf(const SizeOf& size) {
    Seat seat;
    seat.reference = Vec3(size("seat_back_x"), 0, size("seat_height"));
    return seat;
}

void addService(Chassis& chassis, std::string name, const Vec3& at, const Vec3& from, double hand) {
    chassis.service.push_back({std::move(name), at, from, hand});
}

void addChairService(const SizeOf& size, Chassis& chassis) {
    const double armTop = size("seat_height") + size("armrest_height");
    const double y = -(size("armrest_spacing") + size("armrest_width")) / 2;
    const double front = size("joystick_x") + size("joystick_length") / 2;
    addService(chassis, "switch", Vec3(size("joystick_x"), y, armTop + size("joystick_height") / 2),
               Vec3::Zero());
    addService(chassis, "charge port", Vec3(front, y, armTop - 20), Vec3::UnitX());
    const double out = size("width") / 2 - size("drive_wheel_width");
    for (const double side : {1.0, -1.0})
        addService(chassis, side > 0 ? "left freewheel lever" : "right freewheel lever",
                   Vec3(size("base_back_x"), side * std::max(out - 60, 0.0), size("base_height") - 60),
                   -Vec3::UnitX());
}

} // namespace slab
