#pragma once
// The finished thing tried out on paper, with its rider aboard: how it stands, what it passes on its way,
// what is seen from it and how one gets out. Figures in mm, kg, radians, N, mm/s; body axes (z = 0 is the
// ground).
#include "core/base/finding.h"
#include "core/ride/people.h"
#include "core/trial/passes.h"
#include "core/trial/seen.h"
#include "core/trial/stands.h"

namespace slab::trial {

// ---------------------------------------------------------------------------------------

/// N that a door or a lid may take to open: 5 lbf (ADA 2010, 404.2.9).
inline constexpr double latchPush = 22.2;
inline constexpr double exitSlack = 0.01; ///< mm that a way out may be short by: rounding
struct WayOut {
    std::string opening;
    double width = 0, height = 0;             ///< clear, mm
    double wantedWidth = 0, wantedHeight = 0; ///< for whoever needs the most
    std::string who;
    double lidMass = 0;                ///< kg; 0 = no lid
    double catches = 0;                ///< N that what holds the lid shut must bear; 0 = no lid
    bool frees = true;                 ///< a hand's push of latchPush undoes such catches
    std::vector<Vec3> path;            ///< free way from over the seat's edge to it, with a bend at most
    std::vector<std::string> inTheWay; ///< on the straight way, where there is no free one
    Outcome outcome = Outcome::unknown;
    Vec3 at = Vec3::Zero();
    double wantedAcross = 0; ///< mm: diameter that a round one needs; 0 = it is not round, or large enough
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
    std::optional<Ramps> ramps; ///< of a shell that does not float
    std::vector<View> views;    ///< one for each who drives
    std::vector<WayOut> waysOut;
    std::vector<Gap> gaps;
    Air air;
    std::vector<Finding> findings;
    std::vector<std::string> cautions; ///< for the ride; local rules govern
    bool operator==(const Trial&) const = default;
};

} // namespace slab::trial
