#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"
#include "core/geometry/convex.h"

namespace slab {

/// One convex solid of donor or rider, in body axes at its place.
struct FitSolid {
    std::string name;  ///< "donor/seat", "rider/head", "donor/front left caster circle"
    std::string group; ///< "donor" or "rider"
    ConvexSolid shape;
    double clearance = 0;  ///< wanted, mm
    bool moving = false;   ///< the space that something sweeps
    std::string note;      ///< where its size comes from
    double bulge = 0;      ///< what it sweeps reaches so far out of its shape, beside the clearance, mm
    bool keptFree = false; ///< room for somebody or something that does not go along through doors
    bool operator==(const FitSolid&) const = default;
};

enum class WheelRole { fixed, drive, steered, caster };
/// A wheel on level ground, in body axes.
struct Wheel {
    std::string name;
    Vec3 at = Vec3::Zero(); ///< where it touches the ground; of a caster, below its pivot
    double radius = 0, width = 0;
    WheelRole role = WheelRole::fixed;
    double trail = 0; ///< of a caster, from below its pivot to where it touches the ground, mm
    double lock = 0;  ///< of a steered one, to either side, radians
    bool operator==(const Wheel&) const = default;
};
enum class DriveKind {
    none,    ///< no chassis
    pivot,   ///< one driven wheel a side: turns on the spot
    steered, ///< by turned wheels
    pushed   ///< by somebody who walks; turns like pivot about its fixed axle
};
/// A spot that must stay reachable, in body axes.
struct ReachPoint {
    std::string name;
    Vec3 at = Vec3::Zero();
    Vec3 from = Vec3::Zero(); ///< unit direction to the side that a hand comes from; 0 = any
    double hand = 100;        ///< width of what must get there, mm
    bool operator==(const ReachPoint&) const = default;
};
/// What carries and moves it all, in body axes.
struct Chassis {
    std::vector<Wheel> wheels;
    double mass = 0;            ///< kg, by itself; 0 = not known
    Vec3 centre = Vec3::Zero(); ///< of mass
    double rated = 0;           ///< kg that it may carry; 0 = not known
    DriveKind drive = DriveKind::none;
    Vec3 axle = Vec3::Zero();     ///< middle of the drive or fixed axle, on the ground
    double wheelbase = 0;         ///< steered: from that axle to the steered one, mm
    double lock = 0;              ///< steered: greatest angle of the middle steered wheel, radians
    double speed = 0;             ///< greatest, mm/s; 0 = not known
    double climb = 0;             ///< step that its maker lets it climb, mm; 0 = not known
    Vec3 forward = Vec3::UnitX(); ///< of the donor
    std::vector<ReachPoint> service;
    bool operator==(const Chassis&) const = default;
};
/// Somebody aboard, sitting, in body axes.
struct Person {
    std::string name;                      ///< "rider", or the passenger's
    double mass = 0;                       ///< kg
    Vec3 centre = Vec3::Zero();            ///< of mass
    Vec3 eye = Vec3::Zero();               ///< between the eyes
    Vec3 seat = Vec3::Zero();              ///< where seat and back meet
    double shoulders = 0, hips = 0;        ///< breadths, mm
    double top = 0;                        ///< of head or helmet above the ground, mm
    double sittingHeight = 0, stature = 0; ///< mm
    bool operator==(const Person&) const = default;
};
/// Solids that stand elsewhere in a pose of the rider or of the steering: lean, arms, turned wheels.
struct DonorPose {
    std::string words; ///< "leaning forward 20°"
    std::vector<FitSolid> solids;
    bool operator==(const DonorPose&) const = default;
};

struct DonorSet {
    std::vector<FitSolid> solids;
    Vec3 place = Vec3::Zero(); ///< donor origin in body axes
    Chassis chassis;
    std::vector<Person> people;
    std::vector<DonorPose> poses; ///< beside the one at rest
    std::vector<Finding> findings;
    bool operator==(const DonorSet&) const = default;
};

/// A size of a generic donor that the document may change by name.
struct DonorSize {
    std::string name;  ///< "seat_height"
    std::string label; ///< "seat height"
    double value = 0;  ///< generic value, mm, radians or a number
    std::string source;
    Kind kind = Kind::length; ///< numbers are in kg or km/h, as the label says
    bool operator==(const DonorSize&) const = default;
};
[[nodiscard]] std::vector<std::string> donorKinds(); ///< "powered_chair", "scooter", …, "none"
[[nodiscard]] std::vector<DonorSize> donorSizes(const std::string& kind);

/// Donor and rider as solids, formulas read. Everything is build size.
[[nodiscard]] DonorSet resolveDonor(const Project& project, const Scope& scope);

} // namespace slab
