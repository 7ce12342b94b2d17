#pragma once
// Sets of numbers as ranges.
#include "core/sight/sight.h"

namespace slab::sight {

/// What is left of ranges when one is taken away.
[[nodiscard]] std::vector<Range> without(const std::vector<Range>& ranges, const Range& taken);
/// Overlapping ranges made one, ascending; gaps up to `least` are closed: two triangles that share an edge
/// leave none but rounding's.
[[nodiscard]] std::vector<Range> joined(std::vector<Range> ranges, double least = 1e-10);

} // namespace slab::sight
