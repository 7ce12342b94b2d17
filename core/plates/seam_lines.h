#pragma once
// Where the document's seams lie on a panel, and whether they lie on one another, or too near each other.
#include "core/plates/seam_search.h"
#include "core/plates/seams.h"

namespace slab::plates {

/// The line of a seam that the builder placed.
[[nodiscard]] CutLine seamLine(const SeamChoice& seam, const Panel& panel);
/// `at` and `turn` of a line, as the builder would write them.
[[nodiscard]] std::pair<double, double> seamPlace(const CutLine& line, const Panel& panel);
/// Whether two lines are the same: nowhere on the panel farther apart than 0.01 mm.
[[nodiscard]] bool sameLine(const CutLine& a, const CutLine& b, const Panel& panel);

/// Least width of what lies between two seams of a panel, mm; infinite where no piece lies between two.
[[nodiscard]] double leastBetweenSeams(const Splitting& split);

} // namespace slab::plates
