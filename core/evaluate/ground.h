#pragma once
// What reaches under the ground, as shown and anywhere that mechanisms and a floating shell can go.
#include "core/evaluate/evaluate.h"

namespace slab {

/// One finding "below-ground" at most, for forms, frames and mechanisms. Of a belt's strips the places of
/// their true curve count, which their facets touch in the middle.
[[nodiscard]] std::vector<Finding> groundFindings(const Project& project, const Evaluation& e);

} // namespace slab
