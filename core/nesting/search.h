#pragma once
// Which orders, turns and tastes are tried.
#include "core/nesting/objective.h"

namespace slab::nesting {

/// The order a person would take: largest first.
[[nodiscard]] Recipe firstRecipe(const Task& task);

/// One pass, or rounds of changed recipes until time or rounds are used up. The same rounds and seed give the
/// same build on any number of threads.
[[nodiscard]] Build search(const Task& task, const NestOptions& options, const Job& job);

} // namespace slab::nesting
