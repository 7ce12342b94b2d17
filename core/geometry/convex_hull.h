#pragma once
// Convex hulls of small point sets, and what is read off them: planes, edges, common volumes.
#include "core/geometry/polyhedron.h"

namespace slab {

/// Hull of points with coplanar facets merged, faces counter-clockwise from outside; unused and doubled
/// points are left out. Points that lie in one plane give the same face twice, back to back; points on one
/// line give no face.
///
/// Gift wrapping over whole faces, O(edges × points): for the handful of corners that cells and donor solids
/// have. Points within 1e-10 of the set's size of a face's plane belong to that face.
[[nodiscard]] Polyhedron convexHull3(const std::vector<Vec3>& points);

/// Common part of two convex polyhedra.
struct CommonPart {
    double volume = 0; ///< mm³
    Vec3 centroid = Vec3::Zero();
};
/// Each solid's faces clipped by the other's planes; a face that both share is counted once.
[[nodiscard]] CommonPart commonPart(const Polyhedron& a, const Polyhedron& b);

} // namespace slab
