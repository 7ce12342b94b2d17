#pragma once
// Route and ride of the document as figures.
#include "core/document/project.h"
#include "core/donor/donor.h"
#include "core/route/footprint.h"
#include "core/route/profile.h"

namespace slab::trial {

/// Taken where the document says nothing: km/h, degrees to either side, g a metre of joint.
inline constexpr double usualWind = 40, usualField = 30, usualAdhesive = 40;

/// What the ride is asked to stand. mm, kg, radians, mm/s, mm/s².
struct RideFigures {
    double slope = 1.0 / 12, crossSlope = 1.0 / 48; ///< rise over run
    double speed = 0;                               ///< 0 = not known
    double radius = 0;                              ///< 0 = the tightest that it can turn
    double wind = 0;
    double friction = 0.6; ///< dry ground 0.5 to 0.8, common practice
    double reaction = 1, braking = 1000;
    std::optional<double> sees; ///< from the body's front; nothing = the way to stop
    double field = 0;           ///< to either side
    double loadShare = 0.8;     ///< common practice
    double adhesive = 0;        ///< kg a metre of joint
    struct Weight {
        std::string name;
        double mass = 0;
        Vec3 at = Vec3::Zero();
        bool operator==(const Weight&) const = default;
    };
    std::vector<Weight> ballast;
    std::vector<Wheel> shellWheels;
    bool operator==(const RideFigures&) const = default;
};

/// One part of the route in figures; what its kind does not use is left at 0.
struct RouteFigure {
    std::string name, kind;
    std::size_t index = 0;        ///< in the document
    double width = 0, height = 0; ///< height 0 = open above
    double length = 0, thickness = 0, skew = 0, diameter = 0;
    double wayOut = 0, turn = 0;
    double load = 0; ///< kg; 0 = not known
    bool empty = false;
    route::GroundProfile ground; ///< of what has one
    double slope = 0;            ///< steepest of it, rise over run
    bool operator==(const RouteFigure&) const = default;
};

/// Is it driven over, as ramps and steps are, rather than through?
[[nodiscard]] bool isGround(const std::string& kind);
/// Sizes that a kind cannot do without, by field name.
[[nodiscard]] std::vector<std::string> neededSizes(const std::string& kind);

/// What cannot be read takes its default and is told.
[[nodiscard]] RideFigures resolveRide(const Project& project, const Scope& scope, const Chassis& chassis,
                                      std::vector<Finding>& findings);
/// Parts that are off, or lack a size that they need (which is told), are left out.
[[nodiscard]] std::vector<RouteFigure> resolveRoute(const Project& project, const Scope& scope,
                                                    std::vector<Finding>& findings);

} // namespace slab::trial
