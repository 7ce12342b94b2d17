#include "core/donor/parts.h"
#include <algorithm>
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
            {"steering_lock", "tiller turns to either side by", std::numbers::pi / 4, memory, Kind::angle},
        },
        weightSizes(55, 300, 290, 136, 8, 20, "mass 40 to 70 kg, typical, from memory"));
    return sizes;
}

namespace {

/// Front wheel circles and rear wheels stand aside of the middle by these.
double frontOffset(const SizeOf& size, bool four) {
    return four ? size("front_track") / 2 : 0;
}

void addWheels(const SizeOf& size, bool four, std::vector<FitSolid>& solids) {
    const double r = size("rear_wheel_diameter") / 2, outside = size("width") / 2;
    const double inside = std::max(outside - size("rear_wheel_width"), 0.0);
    for (const double side : {1.0, -1.0})
        solids.push_back(
            wheelSolid(side > 0 ? "left rear wheel" : "right rear wheel", 0, side, inside, outside, r));
    const double d = size("front_wheel_diameter"), x = size("wheelbase"), w = size("front_wheel_width");
    if (!four) solids.push_back(steeredCircle("front wheel circle", Vec3(x, 0, 0), d, w));
    for (const double side : {1.0, -1.0})
        if (four)
            solids.push_back(steeredCircle(side > 0 ? "left front wheel circle" : "right front wheel circle",
                                           Vec3(x, side * frontOffset(size, four), 0), d, w));
    const double half = std::max(inside - 10, 10.0);
    const double under = std::min(size("ground_clearance"), size("body_height") - 1);
    solids.push_back(
        part("battery box", makeBoxSolid(Vec3(size("body_back_x"), -half, under),
                                         Vec3(size("body_front_x"), half, size("body_height")))));
}

/// Rear axle fixed and driven, steered ahead.
Chassis scooterChassis(const SizeOf& size, bool four) {
    Chassis c;
    c.drive = DriveKind::steered;
    addWheelPair(
        c, "rear wheel",
        {"", Vec3::Zero(), size("rear_wheel_diameter") / 2, size("rear_wheel_width"), WheelRole::drive}, 0,
        size("width") / 2 - size("rear_wheel_width") / 2);
    const Wheel front{"front wheel",
                      Vec3(size("wheelbase"), 0, 0),
                      size("front_wheel_diameter") / 2,
                      size("front_wheel_width"),
                      WheelRole::steered,
                      0,
                      size("steering_lock")};
    if (four)
        addWheelPair(c, front.name, front, front.at.x(), frontOffset(size, four));
    else
        c.wheels.push_back(front);
    c.wheelbase = size("wheelbase");
    c.lock = size("steering_lock");
    weigh(size, c);
    return c;
}

/// Key and charge port on the tiller's head, freewheel lever behind the battery box.
void addScooterService(const SizeOf& size, const Vec3& tillerTop, Chassis& c) {
    addService(c, "key and switch", tillerTop, Vec3::Zero());
    addService(c, "charge port", Vec3(size("tiller_foot_x"), 0, size("deck_height") + 300), Vec3::UnitX());
    addService(c, "freewheel lever", Vec3(size("body_back_x"), 0, size("body_height") - 80), -Vec3::UnitX());
    addService(c, "seat lever",
               Vec3(size("seat_back_x") + size("seat_depth") / 2, -size("seat_width") / 2,
                    size("seat_height") - size("seat_thickness")),
               -Vec3::UnitY());
}

void addPost(const SizeOf& size, std::vector<FitSolid>& solids) {
    const double under = size("seat_height") - size("seat_thickness");
    const double middle = size("seat_back_x") + size("seat_depth") / 2;
    if (under > size("body_height"))
        solids.push_back(part("seat post", makeCylinder(Vec3(middle, 0, size("body_height")),
                                                        Vec3(middle, 0, under), size("post_diameter") / 2)));
}

GenericDonor anyScooter(const SizeOf& size, bool four) {
    GenericDonor donor;
    addWheels(size, four, donor.solids);
    const double deck = size("deck_height"), halfDeck = size("deck_width") / 2;
    donor.solids.push_back(
        part("deck", makeBoxSolid(Vec3(size("deck_back_x"), -halfDeck, deck - size("deck_thickness")),
                                  Vec3(size("deck_front_x"), halfDeck, deck))));
    addSeat(size, donor.solids);
    addPost(size, donor.solids);
    const Vec3 foot(size("tiller_foot_x"), 0, deck);
    const Vec3 top(size("tiller_top_x"), 0, std::max(size("tiller_height"), deck + 1));
    const Vec3 axis = (top - foot).normalized();
    const double halfBar = size("handlebar_span") / 2;
    donor.solids.push_back(part("tiller", makeCapsule(foot, top, size("tiller_diameter") / 2)));
    donor.solids.push_back(keptFree(part(
        "handlebar sweep", handlebarSweep(top, axis, halfBar, size("handlebar_room"), size("steering_lock")),
        true, "bar and hands, as far as it turns to each side")));
    donor.seat = seatOf(size);
    donor.seat.sole = deck;
    donor.seat.leftHand = top + Vec3(0, halfBar - 70, 0);
    donor.seat.rightHand = top - Vec3(0, halfBar - 70, 0);
    donor.seat.helm = top;
    donor.seat.helmAxis = axis;
    donor.seat.helmTurn = size("steering_lock");
    donor.chassis = scooterChassis(size, four);
    addScooterService(size, top, donor.chassis);
    return donor;
}

} // namespace

GenericDonor scooter(const SizeOf& size) {
    return anyScooter(size, false);
}

// A four-wheel scooter: 580-700 mm wide, 1150-1500 mm long, wider and longer than one with three wheels
// (typical sizes, from memory).
const std::vector<DonorSize>& scooterFourSizes() {
    static const char* const memory = "typical four-wheel scooter, from memory";
    static const std::vector<DonorSize> sizes = [] {
        std::vector<DonorSize> all = scooterSizes();
        const auto set = [&](const char* name, double value) {
            for (DonorSize& s : all)
                if (s.name == name) s.value = value;
        };
        for (DonorSize& s : all) s.source = memory;
        set("width", 620), set("wheelbase", 950);
        set("front_wheel_diameter", 280), set("front_wheel_width", 85);
        set("rear_wheel_diameter", 300), set("rear_wheel_width", 90);
        set("deck_front_x", 720), set("deck_width", 440), set("deck_height", 150);
        set("body_height", 430), set("body_back_x", -240), set("ground_clearance", 90);
        set("seat_height", 600), set("tiller_foot_x", 790), set("tiller_top_x", 570);
        set("tiller_height", 980);
        set("mass", 85), set("centre_x", 340), set("centre_height", 310), set("rated_load", 150);
        set("steering_lock", 40 * std::numbers::pi / 180);
        all.insert(all.begin() + 2, {"front_track", "between the middles of the front wheels", 520, memory});
        return all;
    }();
    return sizes;
}

GenericDonor scooterFour(const SizeOf& size) {
    return anyScooter(size, true);
}

} // namespace slab
