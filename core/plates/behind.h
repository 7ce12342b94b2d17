#pragma once
// Strips and rings glued behind a plate: what of its inside face is free for them.
#include "core/plates/plate.h"

namespace slab::plates {

/// Where, on the inside face, something that thick may lie: within the inside outline, `gap` clear of its
/// openings and of every other plate that stands in the way. The plate's own flat coordinates.
/// @param others  plates that may stand there; the host itself and those named in `except` are passed over
struct BehindRules {
    double depth = 0; ///< of what is to lie there, mm
    double gap = 2;   ///< mm
    std::vector<std::string> except;
};
[[nodiscard]] std::vector<Polygon> freeBehind(const Plate& host, const PlateList& others,
                                              const BehindRules& rules);

/// What a convex solid has between two heights over a plane, seen square to it: a convex outline, empty if
/// nothing is there. `frame` has the plane at w = 0.
[[nodiscard]] Ring shadowOf(const ConvexSolid& solid, const Frame& frame, double low, double high);

} // namespace slab::plates
