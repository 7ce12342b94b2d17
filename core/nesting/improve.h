#pragma once
// Better layouts by parting overlaps: a shorter strip, fewer sheets.
#include "core/nesting/budget.h"
#include "core/nesting/objective.h"
#include "core/nesting/separate.h"

namespace slab::nesting {

/// Shortens the strip step by step; each step parts the overlaps that it made. One budget step is one pass.
/// @return the shortest sound layout, never longer than `start`
[[nodiscard]] Build shortenStrip(const Task& task, const Build& start, std::uint64_t seed, Budget& budget);

/// Tries to empty one sheet after the other into the rest, then to enlarge the offcuts.
/// One budget step is one pass.
/// @return a sound layout, never of more sheets or money than `start`
[[nodiscard]] Build emptySheets(const Task& task, const Build& start, std::uint64_t seed, Budget& budget);

} // namespace slab::nesting
