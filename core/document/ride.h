#pragma once
// Who rides, what the finished thing must pass on its way, and how it is to be ridden. Lengths are build
// sizes.
#include "core/document/basics.h"

namespace slab {

/// One wheel of a chassis drawn by hand, in donor axes. A name of the generic donor replaces that wheel.
struct DonorWheel {
    std::string name;
    Text x, y; ///< where it touches the ground; of a caster, its pivot
    Text diameter, width;
    std::string role = "fixed"; ///< "fixed", "drive", "steered", "caster"
    Text trail;                 ///< of a caster: from its pivot to where it touches the ground
    Text lock;                  ///< of a steered one: how far it turns to either side
    Extra extra;
    bool operator==(const DonorWheel&) const = default;
};
/// A spot on the donor that must stay reachable. A name of the generic donor replaces that point.
struct ServicePoint {
    std::string name;
    Text x, y, z;     ///< in donor axes
    std::string from; ///< the side that a hand comes from: "", "x", "-x", …; empty = any
    Text hand;        ///< width of what must get there; empty = a hand's
    Extra extra;
    bool operator==(const ServicePoint&) const = default;
};

/// Body sizes of one person.
struct Figure {
    std::string table = "adult"; ///< "adult", "child", "none"
    std::string sex = "both";    ///< "male", "female", "both"
    Text percentile = "50";
    Text age = "8";                 ///< child table, years
    Text stature;                   ///< a whole figure by its height; empty = by percentile
    std::vector<NamedText> figures; ///< single dimensions by name: a percentile ("95") or a size ("96 cm")
    Text mass;                      ///< kg; empty = the table's
    Text recline;                   ///< of the back, from upright
    Text shoes, helmet;             ///< what they add below and above
    Text clearance;                 ///< empty = default
    bool operator==(const Figure&) const = default;
};
struct Rider : Figure {
    Text shift_x, shift_z;                    ///< moved from the donor's seat reference
    Text lean_forward, lean_back, lean_aside; ///< how far they may lean from there; empty = they sit still
    Extra extra;
    bool operator==(const Rider&) const = default;
};
/// Somebody else aboard: a child with its minder.
struct Passenger : Figure {
    std::string name;
    Text x, y, z; ///< where seat and back meet, in donor axes
    Extra extra;
    bool operator==(const Passenger&) const = default;
};

/// A straight piece of a ground profile.
struct GroundStretch {
    std::string name;
    Text run, rise; ///< a run of 0 is an upright step
    Extra extra;
    bool operator==(const GroundStretch&) const = default;
};
/// Something on the way that the finished thing must pass.
struct RoutePart {
    std::string name;
    std::string kind = "door"; ///< kRouteWords of spec.h
    Text width, height;        ///< clear
    Text length;               ///< of a floor, bed, hump or sill
    Text thickness;            ///< of the wall that a door or gate is in
    Text skew;                 ///< of the way from square to that wall
    Text diameter;             ///< of a turning circle
    Text way_out, turn;        ///< of a corner: width behind it, and how far the way turns
    Text slope;                ///< rise over run
    Text counter;              ///< fall of the street before a kerb ramp, rise over run
    Text rise;                 ///< height in all
    Text upright;              ///< of a threshold: the part of its height that has no bevel
    Text load;                 ///< kg that it bears
    bool empty = false;        ///< nobody sits in it there
    std::vector<GroundStretch> stretches;
    bool off = false;
    std::string note; ///< where its figures come from
    Extra extra;
    bool operator==(const RoutePart&) const = default;
};

/// A weight that is put in, and where. The body's axes.
struct Ballast {
    std::string name;
    Text mass; ///< kg
    Text x, y, z;
    Extra extra;
    bool operator==(const Ballast&) const = default;
};
/// How it is to be ridden.
struct Ride {
    Text slope = "1/12", cross_slope = "1/48"; ///< steepest ground, along and across, rise over run
    Text speed;                                ///< km/h; empty = the donor's greatest
    Text radius;     ///< of the tightest turn at that speed; empty = the tightest that it can turn
    Text wind;       ///< km/h that it is to stand in
    Text friction;   ///< between tyres and ground
    Text reaction;   ///< s until the brakes act
    Text braking;    ///< m/s²
    Text sees;       ///< ground must be seen from so far before the body
    Text field;      ///< open view wanted to either side of straight ahead
    Text load_share; ///< of the rated load that may be used
    Text adhesive;   ///< g a metre of joint
    std::vector<Ballast> ballast;
    std::vector<DonorWheel> wheels; ///< "shell_wheels" in the file: of a floating shell's own, body axes
    Extra extra;
    bool operator==(const Ride&) const = default;
};

/// Round stock that is in the shed or can be bought: pipe, tube, tub.
struct RoundStock {
    std::string name;
    Text diameter; ///< outside
    Text wall, length;
    Text price = "0";
    Text on_hand = "0";
    Extra extra;
    bool operator==(const RoundStock&) const = default;
};

} // namespace slab
