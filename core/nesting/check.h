#pragma once
#include "core/nesting/nest.h"

namespace slab::nesting {

/// What checkNest says about one sheet alone: borders, overlaps, spacing, turns, stock, used area.
[[nodiscard]] bool soundLayout(const NestProblem& problem, const NestLayout& layout, double stripLength,
                               double tolerance = 1e-6);

/// What checkNest says of layouts that are sound one by one: supply, cost, and that every copy is there once.
[[nodiscard]] bool soundTogether(const NestProblem& problem, const NestResult& result);

} // namespace slab::nesting
