#pragma once
// The finished thing tried out on paper, with its rider aboard: how it stands, what it passes on its way,
// what is seen from it and how one gets out. Figures in mm, kg, radians, N, mm/s; body axes (z = 0 is the
// ground).
#include "core/base/finding.h"
#include "core/ride/people.h"
#include "core/ride/tipping.h"
#include "core/route/crossing.h"
#include "core/route/footprint.h"
#include "core/sight/sight.h"
#include <optional>

namespace slab::trial {

/// How a check came out.
enum class Outcome {
    passes,
    tight, ///< passes with less to spare than wanted
    fails,
    unknown ///< something that it needs is not known
};

// --- how it stands
// ------------------------------------------------------------------------------------------

struct LoadPart {
    std::string name; ///< "shell", "donor", "rider", "ballast lead"
    double mass = 0;  ///< kg
    Vec3 centre = Vec3::Zero();
    bool operator==(const LoadPart&) const = default;
};
struct Load {
    std::vector<LoadPart> parts;
    ride::MassProperties all;           ///< with everybody aboard
    ride::MassProperties empty;         ///< nobody aboard
    std::vector<std::string> unweighed; ///< sheets and parts that have no known mass: not counted
    bool operator==(const Load&) const = default;
};
/// One way that it is asked to stand.
struct Standing {
    std::string words; ///< "level", "nose up 1:12", "port side up 1:48"
    ride::Slope slope;
    bool stands = false;
    std::vector<double> loads; ///< N, one a wheel of `Balance::stance`
    bool operator==(const Standing&) const = default;
};
struct WindCase {
    std::string words;  ///< "from port", "from ahead"
    double towards = 0; ///< that it blows to, radians from x towards y
    double area = 0;    ///< mm²
    ride::WindLimits limits;
    bool operator==(const WindCase&) const = default;
};
/// What a change would do to the least tip angle.
struct BalanceChange {
    std::string words; ///< "10 kg on the floor", "donor 50 mm forward"
    double angle = 0;  ///< least tip angle then, radians
    bool operator==(const BalanceChange&) const = default;
};
struct Balance {
    Load load;
    ride::Stance stance;
    std::vector<std::string> wheels; ///< names
    std::vector<ride::TipLine> lines;
    ride::TipAngle least;
    std::vector<Standing> standings;    ///< level first
    std::optional<ride::Rating> rating; ///< against the share of the rated load that may be used
    double rated = 0;                   ///< kg, in full; 0 = not known
    double speed = 0, radius = 0;       ///< in the turn that is asked about
    ride::TurnLimits turn;              ///< speeds at which that turn tips it, on the cross slope
    std::vector<WindCase> winds;
    double wind = 0; ///< mm/s that it is to stand in
    std::vector<BalanceChange> changes;
    bool operator==(const Balance&) const = default;
};

// --- what it passes
// -----------------------------------------------------------------------------------------

/// One part of the route, tried.
struct RouteResult {
    std::string name, kind;
    Outcome outcome = Outcome::unknown;
    double margin = 0;      ///< mm to spare in what binds; below 0 it does not pass
    std::string measure;    ///< what that is: "across", "over the roof", "under the hull"
    std::string binds;      ///< plate, solid or wheel that comes nearest; may be empty
    std::string words;      ///< one line for people
    std::optional<Vec3> at; ///< on it, body axes at rest
    /// In plan, in the body's axes where it is tightest: what it must stay in.
    std::vector<Ring> walls;
    /// Seen from the side: the ground, and poses along it. Empty for what is no ground.
    route::GroundProfile ground;
    route::SideView side;
    std::vector<route::SidePose> poses;
    int worst = -1; ///< the pose with the least clearance
    bool operator==(const RouteResult&) const = default;
};
struct Turning {
    route::SweptPath path;      ///< tightest, to the worse side
    Vec2 centre = Vec2::Zero(); ///< of the turn, body axes
    std::string inner, outer;   ///< plates or solids that sweep the two circles
    bool operator==(const Turning&) const = default;
};

// --- what is seen
// -------------------------------------------------------------------------------------------

struct OpeningSeen {
    std::string opening, plate;
    bool ahead = false; ///< straight ahead lies over or under it: the two figures below count
    double raise = 0;   ///< how far it would have to move up to lie at eye level, mm; below 0 down, 0 it does
    double lower = 0; ///< how far its lower edge would have to come down to see the ground that is wanted, mm
    double field = 0; ///< open horizon that would be lost without it, radians
    Vec3 at = Vec3::Zero();
    bool operator==(const OpeningSeen&) const = default;
};
/// Directions are counted from the way ahead towards port. Ground and horizon ahead are seen with both eyes,
/// the map with one between them.
struct View {
    std::string who; ///< "rider"
    Vec3 eye = Vec3::Zero();
    sight::SeenAhead ahead; ///< nearest ground over the way ahead, from below the eye, along the way
    double beyondNose = 0;  ///< the same from the body's front, mm; infinite if none is seen
    double wanted = 0;      ///< from the body's front, mm
    double stops = 0;       ///< way to stop from the speed that is ridden, mm
    sight::HorizontalField field;
    double wantedField = 0; ///< to either side, radians
    sight::BlindMap map;
    std::vector<OpeningSeen> openings;
    bool operator==(const View&) const = default;
};

// --- how one gets out
// ---------------------------------------------------------------------------------------

struct WayOut {
    std::string opening;
    double width = 0, height = 0;             ///< clear, mm
    double wantedWidth = 0, wantedHeight = 0; ///< for whoever needs the most
    std::string who;
    double lidMass = 0;                ///< kg; 0 = no lid
    std::vector<std::string> inTheWay; ///< solids of the donor that stand before it
    Outcome outcome = Outcome::unknown;
    Vec3 at = Vec3::Zero();
    bool operator==(const WayOut&) const = default;
};
struct Gap {
    std::string what; ///< "opening port hand", "roof and hull/port"
    double size = 0;  ///< mm
    bool moving = false;
    std::string rule; ///< document and clause
    Vec3 at = Vec3::Zero();
    bool operator==(const Gap&) const = default;
};
struct Air {
    double low = 0, high = 0; ///< open area below and above the rider's shoulders, mm²
    bool operator==(const Air&) const = default;
};

struct Trial {
    std::optional<Balance> balance; ///< nothing without a chassis on three wheels or more
    std::vector<RouteResult> route;
    std::optional<Turning> turning;
    std::vector<View> views; ///< one for each who drives
    std::vector<WayOut> waysOut;
    std::vector<Gap> gaps;
    Air air;
    std::vector<Finding> findings;
    std::vector<std::string> cautions; ///< for the ride; local rules govern
    bool operator==(const Trial&) const = default;
};

} // namespace slab::trial
