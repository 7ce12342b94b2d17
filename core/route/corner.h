#pragma once
// Round the corner of two corridors. mm and radians. Branch and bound over the heading: the margin is proved,
// not sampled.
#include "core/route/footprint.h"

namespace slab::route {

/// Two corridors that meet in a corner with a sharp inner edge.
struct Corner {
    double in = 0, out = 0; ///< clear widths before and behind the corner, mm
    double turn = 0;        ///< radians, 0 < |turn| < π: above 0 to port; π/2 is a square corner
    bool operator==(const Corner&) const = default;
};

/// What would meet first.
enum class CornerLimit {
    innerEdge, ///< wedged between the outer walls and the inner edge
    wayIn,     ///< too wide for the first corridor
    wayOut     ///< too wide for the second
};
struct CornerPassage {
    double margin = 0; ///< mm by which both corridors could be narrower; below 0 it does not pass
    double slack = 0;  ///< the true margin is no more than this below, mm
    CornerLimit limit = CornerLimit::innerEdge;
    double heading = 0;     ///< turned so far where it is tightest, radians, from 0 to |turn|
    double radius = 0;      ///< driven: of the arc that was chosen, of the drive axle's middle, mm
    Vec2 at = Vec2::Zero(); ///< of the outline, in the vehicle's axes, that comes next to the inner edge
    int firstWall = 0, secondWall = 0; ///< corners of the outline next to the outer walls of both corridors
    [[nodiscard]] bool passes() const { return margin >= 0; }
};

/// Moved round in any way that keeps turning towards the new corridor, as when its casters are set by hand.
/// At each heading it is pushed against both outer walls, which never hurts, so only the heading is left to
/// search.
/// @param tolerance  mm, above 0
/// @error "out-of-range"
[[nodiscard]] Expected<CornerPassage> carryRound(const Footprint& footprint, const Corner& corner,
                                                 double tolerance = 0.02);

/// Driven straight, round one steady arc, and straight on, forward, without shunting; the best arc that the
/// drive allows, a turn on the spot where it can.
/// @error "out-of-range"
[[nodiscard]] Expected<CornerPassage> driveRound(const Footprint& footprint, const Corner& corner,
                                                 const DriveGeometry& drive, double tolerance = 0.02);

} // namespace slab::route
