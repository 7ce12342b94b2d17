#pragma once
// What a board of some thickness finds room for inside the shell.
#include "core/donor/donor.h"
#include "core/plates/plate.h"

namespace slab {

/// A slab about a plane: its middle plane is w = 0 of the frame, it reaches from -half to +half along w.
struct BoardSlab {
    Frame frame;
    double half = 0; ///< mm
};

/// Section of a closed solid by the plane w = 0 of a frame, in its u and v: outers counter-clockwise, holes
/// clockwise. A plane that runs within 1e-7 of the size through a corner is moved that much.
[[nodiscard]] std::vector<Polygon> sectionOf(const Polyhedron& solid, const Frame& frame);

/// Shadow on the plane of what convex points span within the slab; empty if nothing with area.
[[nodiscard]] Ring shadowOf(const std::vector<Vec3>& points, const std::vector<std::pair<int, int>>& edges,
                            const BoardSlab& slab);
/// Shadow of a convex solid within the slab grown by `room` to both sides, grown by `room` in the plane as
/// well: what a board must leave free to stay that far away. Round solids by what is drawn round them, at
/// most 2 % larger.
[[nodiscard]] std::vector<Polygon> shadowOf(const ConvexSolid& solid, const BoardSlab& slab, double room);

/// Where a board of the slab's thickness with square edges fits inside one closed skin between the plates:
/// the skin's section less the shadows of all plates, their openings taken as closed, and of the skin itself
/// where no plate lines it. A board
/// of that outline has no volume in common with any plate and stays inside the skin.
[[nodiscard]] std::vector<Polygon> insideSection(const Polyhedron& skin, const PlateList& plates,
                                                 const BoardSlab& slab);

} // namespace slab
