#pragma once
// How far a shell floats on its chassis: the poses that hinges and pins in slots allow.
#include "core/mechanisms/motion.h"
#include <optional>

namespace slab {

/// A hinge or a pin in a slot, in figures.
struct FloatJoint {
    std::string name;
    bool hinge = true;
    Vec3 at = Vec3::Zero();  ///< hinge line along y, or the pin; body axes, mm
    double up = 0, down = 0; ///< pin in a slot: how far the shell rises and sinks there, mm, >= 0
    std::optional<double> noseUp, noseDown; ///< greatest pitch, radians, >= 0; none = not limited here
    bool operator==(const FloatJoint&) const = default;
};

/// One pose of the shell against donor and rider.
struct FloatPose {
    double rise = 0;   ///< at the first joint, mm
    double noseUp = 0; ///< pitch about the first joint's line, radians
    Pose shell;        ///< body axes at rest to body axes now
    bool operator==(const FloatPose&) const = default;
};

struct FloatRange {
    double lowest = 0, highest = 0;  ///< rise at the first joint, mm
    double noseDown = 0, noseUp = 0; ///< pitch, radians; noseDown <= 0 <= noseUp
    std::vector<FloatPose> poses;    ///< corners and middles of the travel; none if nothing moves
    bool locked = false;             ///< two hinges on different lines
    bool operator==(const FloatRange&) const = default;
};

/// Poses that all joints allow together. With a hinge the shell turns about its line, as far as every hinge
/// says and every slot leaves its pin; hinges on one line are one. Without a hinge it rises and sinks at the
/// first pin; it pitches as far as the other slots and the given angles let it, and not at all where nothing
/// says how far. No pitch beyond 45 degrees.
[[nodiscard]] FloatRange floatRange(const std::vector<FloatJoint>& joints);

/// Height that the shell gains at a place of it, mm.
[[nodiscard]] double riseAt(const FloatPose& pose, const Vec3& place);
/// Where something that does not float (donor, rider) stands against the shell at rest.
[[nodiscard]] Pose seenFromShell(const FloatPose& pose);
/// "raised 20 mm, nose up 3.0°"; "at rest"
[[nodiscard]] std::string floatWords(const FloatPose& pose, const std::string& rise);

} // namespace slab
