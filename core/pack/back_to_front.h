#pragma once
// Flat figures in the order in which a picture paints them.
#include "core/geometry/polygon.h"

namespace slab {

/// A flat figure in space.
struct FlatFigure {
    std::size_t board = 0; ///< whose it is
    Frame frame;
    Polygon area; ///< in the frame's u, v, mm
};

/// The figures, cut where the planes of others cross them, from the back to the front: painted one after the
/// other, each covers what it hides. Of figures in one plane the first is painted first.
///
/// @param eye  unit vector towards the eye, from which all is seen in parallel
/// @source  H. Fuchs, Z. M. Kedem and B. F. Naylor, "On visible surface generation by a priori tree
///          structures", 1980
[[nodiscard]] std::vector<FlatFigure> backToFront(const std::vector<FlatFigure>& figures, const Vec3& eye);

} // namespace slab
