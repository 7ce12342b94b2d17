#pragma once
// How a part of a mechanism moves: turns and slides, one carrying the next.
#include "core/geometry/vec.h"
#include <string>
#include <vector>

namespace slab {

/// One turn about an axis or slide along it, body axes, as the mechanism stands with every move at 0.
struct Move {
    bool slides = false;
    std::string words = "turned"; ///< "turned 20°", "raised 12°"
    Vec3 at = Vec3::Zero();       ///< a point on the axis
    Vec3 axis = Vec3::UnitZ();    ///< unit; turns are right-handed about it
    double from = 0, to = 0;      ///< radians or mm; from <= to
    bool endless = false;         ///< all the way round, without stops
    double shown = 0;             ///< as drawn
    bool inverse = false;         ///< of a move of something else, whose own value is told
    bool operator==(const Move&) const = default;
};

/// Moves in the order in which they are applied to a point: the first is nearest to the part, the last
/// carries all.
struct Motion {
    std::string mechanism;
    std::vector<Move> moves;
    bool operator==(const Motion&) const = default;
};

/// x -> turn * x + shift
struct Pose {
    Mat3 turn = Mat3::Identity();
    Vec3 shift = Vec3::Zero();
    [[nodiscard]] Vec3 operator()(const Vec3& p) const { return turn * p + shift; }
    bool operator==(const Pose&) const = default;
};
/// @param values  one per move, radians or mm
[[nodiscard]] Pose poseAt(const Motion& motion, const std::vector<double>& values);
[[nodiscard]] Pose shownPose(const Motion& motion);
/// "turned 143°, raised 20°"
[[nodiscard]] std::string poseWords(const Motion& motion, const std::vector<double>& values);

} // namespace slab
