#pragma once
// How the finished thing stands on its wheels. Figures in mm, kg, radians, N, mm/s; body axes (z = 0 is the
// ground).
#include "core/ride/tipping.h"
#include <optional>

namespace slab::trial {

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

} // namespace slab::trial
