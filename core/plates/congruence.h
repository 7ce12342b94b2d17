#pragma once
// Are two panels the same cutting part?
#include "core/plates/plate.h"

namespace slab::plates {

/// What is cut, for comparing: every loop with its bevels, in plain order.
struct Shape {
    struct Loop {
        Ring outer, inner;
        std::vector<double> bevels; ///< by outer edge
        std::vector<char> folds;
    };
    double thickness = 0;
    std::vector<Loop> loops; ///< boundary first
};
/// @param mirror  reflected in the panel's v axis, as the other hand would look
[[nodiscard]] Shape shapeOf(const Plate& plate, bool mirror);
/// The same after turning and moving in the plane, within 0.01 mm and 0.01°.
[[nodiscard]] bool congruent(const Shape& a, const Shape& b);

} // namespace slab::plates
