#pragma once
// What the finished thing passes on its way. Figures in mm, kg, radians, N, mm/s; body axes (z = 0 is the
// ground).
#include "core/route/angles.h"
#include "core/route/crossing.h"
#include "core/route/footprint.h"
#include <optional>
#include <string>

namespace slab::trial {

/// How a check came out.
enum class Outcome {
    passes,
    tight, ///< passes with less to spare than wanted
    fails,
    unknown ///< something that it needs is not known
};

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
    struct Lift {
        std::string wheels; ///< of one axle, in words
        bool drives = false;
        double gap = 0; ///< greatest height over the ground, mm, while the others stand: nothing gives way
        bool operator==(const Lift&) const = default;
    };
    std::vector<Lift> lifts; ///< axles that leave the ground somewhere
    /// Of a floating shell: how far it moves on its donor there, against level ground.
    struct Afloat {
        double down = 0, up = 0, noseDown = 0, noseUp = 0; ///< mm and radians
        bool operator==(const Afloat&) const = default;
    };
    std::optional<Afloat> afloat;
    bool operator==(const RouteResult&) const = default;
};
struct Turning {
    route::SweptPath path;      ///< tightest, to the worse side
    Vec2 centre = Vec2::Zero(); ///< of the turn, body axes
    std::string inner, outer;   ///< plates or solids that sweep the two circles
    bool operator==(const Turning&) const = default;
};

/// Angles of the ground that it gets on to, off from and over, on its wheels.
struct Ramps {
    route::RampAngles angles;                   ///< π/2 where nothing is in the way
    std::string approach, departure, breakover; ///< what comes first
    bool operator==(const Ramps&) const = default;
};

} // namespace slab::trial
