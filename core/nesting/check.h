#pragma once
#include "core/nesting/nest.h"

namespace slab::nesting {

/// What checkNest says about one sheet alone: borders, overlaps, spacing, turns, stock, used area.
[[nodiscard]] bool soundLayout(const NestProblem& problem, const NestLayout& layout, double stripLength,
                               double tolerance = 1e-6);

} // namespace slab::nesting
