#include "core/donor/generic.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

// A three-wheel scooter: 500-600 mm wide, 1000-1300 mm long (typical sizes, from memory). Measure the real
// one: every size can be changed by name.
const std::vector<DonorSize>& scooterSizes() {
    static const char* const memory = "typical three-wheel scooter, from memory";
    static const std::vector<DonorSize> sizes = withWeights(
        {
            {"width", "width over the rear wheels", 550, memory},
            {"wheelbase", "front axle ahead of the rear axle", 850, memory},
            {"front_wheel_diameter", "front wheel diameter", 230, memory},
            {"front_wheel_width", "front wheel width", 80, memory},
            {"rear_wheel_diameter", "rear wheel diameter", 260, memory},
            {"rear_wheel_width", "rear wheel width", 85, memory},
            {"deck_front_x", "front of the deck", 700, memory},
            {"deck_back_x", "back of the deck", 150, memory},
            {"deck_width", "deck width", 420, memory},
            {"deck_height", "deck top above the ground", 130, memory},
            {"deck_thickness", "deck thickness", 50, memory},
            {"body_front_x", "front of the battery box", 170, memory},
            {"body_back_x", "back of the battery box", -200, memory},
            {"body_height", "top of the battery box", 400, memory},
            {"ground_clearance", "under the battery box", 75, memory},
            {"seat_height", "seat height", 560, memory},
            {"seat_width", "seat width", 460, memory},
            {"seat_depth", "seat depth", 430, memory},
            {"seat_thickness", "seat thickness", 70, memory},
            {"seat_back_x", "front of the seat back", -160, memory},
            {"back_height", "seat back above the seat", 420, memory},
            {"back_width", "seat back width", 430, memory},
            {"back_thickness", "seat back thickness", 80, memory},
            {"post_diameter", "seat post diameter", 60, memory},
            {"tiller_foot_x", "tiller at deck height", 740, memory},
            {"tiller_top_x", "tiller at its top", 540, memory},
            {"tiller_height", "tiller top above the ground", 930, memory},
            {"tiller_diameter", "tiller diameter", 80, memory},
            {"handlebar_span", "handlebar width over the grips", 560, memory},
            {"handlebar_room", "handlebar and hands, along the tiller", 140, memory},
        },
        weightSizes(55, 300, 290, 136, 8, "mass 40 to 70 kg, typical, from memory"));
    return sizes;
}

namespace {

constexpr double steeringAngle = std::numbers::pi / 4; ///< to each side, from memory
constexpr double gripRadius = 25;                      ///< mm, from memory

/// Everything that the bar passes over between full left and full right: both arcs, at two heights along the
/// tiller. Corners stand a little outside the arcs, so that the facets hold them.
ConvexSolid handlebarSweep(const Vec3& top, const Vec3& axis, double halfSpan, double room) {
    constexpr int steps = 4;
    const double step = 2 * steeringAngle / steps;
    const double reach = std::hypot(halfSpan, gripRadius) / std::cos(step / 2);
    const Vec3 across = Vec3::UnitY();
    const Vec3 ahead = across.cross(axis).normalized();
    ConvexSolid s;
    for (const double side : {1.0, -1.0})
        for (const double height : {-room / 2, room / 2})
            for (int i = 0; i <= steps; ++i) {
                const double a = -steeringAngle + i * step;
                s.points.push_back(top + height * axis +
                                   side * reach * (std::cos(a) * across + std::sin(a) * ahead));
            }
    return s;
}

void addWheels(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double r = size("rear_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("rear_wheel_width"), 0.0);
    for (const double side : {1.0, -1.0})
        solids.push_back(part(side > 0 ? "left rear wheel" : "right rear wheel",
                              makeCylinder(Vec3(0, side * inside, r), Vec3(0, side * outside, r), r), true,
                              "turning wheel: 20 mm, common practice"));
    const double d = size("front_wheel_diameter"), x = size("wheelbase");
    solids.push_back(
        part("front wheel circle",
             makeCylinder(Vec3(x, 0, 0), Vec3(x, 0, d), std::hypot(d, size("front_wheel_width")) / 2), true,
             "the steered wheel's swept circle"));
    const double half = std::max(inside - 10, 10.0);
    const double under = std::min(size("ground_clearance"), size("body_height") - 1);
    solids.push_back(
        part("battery box", makeBoxSolid(Vec3(size("body_back_x"), -half, under),
                                         Vec3(size("body_front_x"), half, size("body_height")))));
}

/// Rear axle fixed and driven, one steered wheel ahead.
Chassis scooterChassis(const SizeOf& size) {
    Chassis c;
    c.drive = DriveKind::steered;
    const double y = size("width") / 2 - size("rear_wheel_width") / 2;
    for (const double side : {1.0, -1.0})
        c.wheels.push_back({side > 0 ? "left rear wheel" : "right rear wheel", Vec3(0, side * y, 0),
                            size("rear_wheel_diameter") / 2, size("rear_wheel_width"), WheelRole::drive});
    c.wheels.push_back({"front wheel", Vec3(size("wheelbase"), 0, 0), size("front_wheel_diameter") / 2,
                        size("front_wheel_width"), WheelRole::steered, 0, steeringAngle});
    c.wheelbase = size("wheelbase");
    c.lock = steeringAngle;
    weigh(size, c);
    return c;
}

void addScooterSeat(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double back = size("seat_back_x"), z = size("seat_height"), depth = size("seat_depth");
    const double halfSeat = size("seat_width") / 2, halfBack = size("back_width") / 2;
    const double under = z - size("seat_thickness"), middle = back + depth / 2;
    solids.push_back(
        part("seat", makeBoxSolid(Vec3(back, -halfSeat, under), Vec3(back + depth, halfSeat, z))));
    solids.push_back(part("seat back", makeBoxSolid(Vec3(back - size("back_thickness"), -halfBack, z),
                                                    Vec3(back, halfBack, z + size("back_height")))));
    if (under > size("body_height"))
        solids.push_back(part("seat post", makeCylinder(Vec3(middle, 0, size("body_height")),
                                                        Vec3(middle, 0, under), size("post_diameter") / 2)));
}

} // namespace

GenericDonor scooter(const SizeOf& size) {
    GenericDonor donor;
    addWheels(size, donor.solids);
    const double deck = size("deck_height"), halfDeck = size("deck_width") / 2;
    donor.solids.push_back(
        part("deck", makeBoxSolid(Vec3(size("deck_back_x"), -halfDeck, deck - size("deck_thickness")),
                                  Vec3(size("deck_front_x"), halfDeck, deck))));
    addScooterSeat(size, donor.solids);
    const Vec3 foot(size("tiller_foot_x"), 0, deck);
    const Vec3 top(size("tiller_top_x"), 0, std::max(size("tiller_height"), deck + 1));
    const Vec3 axis = (top - foot).normalized();
    const double halfBar = size("handlebar_span") / 2;
    donor.solids.push_back(part("tiller", makeCapsule(foot, top, size("tiller_diameter") / 2)));
    donor.solids.push_back(part("handlebar sweep", handlebarSweep(top, axis, halfBar, size("handlebar_room")),
                                true, "bar and hands, 45° to each side"));
    donor.seat.reference = Vec3(size("seat_back_x"), 0, size("seat_height"));
    donor.seat.sole = deck;
    donor.seat.leftHand = top + Vec3(0, halfBar - 70, 0);
    donor.seat.rightHand = top - Vec3(0, halfBar - 70, 0);
    donor.seat.helm = top;
    donor.seat.helmAxis = axis;
    donor.seat.helmTurn = steeringAngle;
    donor.chassis = scooterChassis(size);
    return donor;
}

} // namespace slab
