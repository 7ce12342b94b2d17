#pragma once
// The outline of a face as it moves with depth: every edge slides along its side's plane.
#include "core/plates/shell.h"

namespace slab::plates {

/// One side of a zone. In the face's plane at depth d it is the line normal·p = offset + slope * d.
struct Side {
    Half half;
    Vec2 normal = Vec2::Zero(); ///< out of the zone, not of unit length
    double offset = 0, slope = 0;
    double start = 0; ///< offset of the face's own edge, for outlines that collapse on the way
    Vec2 along = Vec2::Zero();
    bool connector = false; ///< joins two parallel lines; keeps its place
};

struct MovingOutline {
    Frame frame; ///< of the face; w outward, depth = -w
    double thickness = 0;
    std::vector<std::vector<Side>> loops;
};

/// @param full  edges parted along bisectors and near-flat mitres are not held back by them
[[nodiscard]] MovingOutline movingOutline(Shell& shell, int face, bool full);
/// Corner i of a loop (between sides i - 1 and i) at a depth, no edge taken out.
[[nodiscard]] std::vector<Vec2> cornersAt(const std::vector<Side>& loop, double depth);
/// Every edge keeps its direction from the outer face to the inner.
[[nodiscard]] bool isRegular(const MovingOutline& outline);
/// Loops at a depth. Edges that shrink to nothing while the outline moves there from the face's own are taken
/// out in the order in which they do; one between parallel neighbours stays as the step between them; a loop
/// with fewer than three edges left is gone.
[[nodiscard]] std::vector<Ring> loopsAt(const MovingOutline& outline, double depth);
/// Turns of all loops around a point.
[[nodiscard]] int windingAt(const std::vector<Ring>& loops, const Vec2& p);

} // namespace slab::plates
