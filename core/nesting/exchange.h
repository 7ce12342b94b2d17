#pragma once
#include "core/nesting/objective.h"

namespace slab::nesting {

/// Puts what lies on bought sheets onto sheets on hand that are left, or cheaper ones, where all of it fits.
/// @return a build of the same parts, never of more money
[[nodiscard]] Build onCheaperSheets(const Task& task, Build build, const Job& job);

} // namespace slab::nesting
