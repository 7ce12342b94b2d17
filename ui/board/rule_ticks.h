#pragma once
// Marks of the board's rulers and the lines of its grid, in the builder's units.
#include "core/units/units.h"
#include <string>
#include <vector>

namespace slab::ui {

struct RuleTick {
    double at = 0;     ///< mm from the ruler's own zero
    int rank = 0;      ///< 0 = the finest; longer marks have higher ranks
    std::string words; ///< empty = only a mark
    bool operator==(const RuleTick&) const = default;
};

/// Steps from fine to coarse, mm; each divides the next. Inches go 1/16, 1/8, 1/4, 1/2, 1, 3, 6 in, then
/// feet; metric by halves of decades from 0.1 mm.
[[nodiscard]] const std::vector<double>& ruleSteps(Unit unit);
/// The finest step that is at least `leastPx` pixels wide at a zoom (the coarsest there is, if none is).
[[nodiscard]] double ruleStep(double pixelsPerMm, double leastPx, Unit unit);
/// Marks in [from, to] mm. Marks stand at least 5 px apart, figures have at least `room` px; a view that
/// would need more than 4000 marks has none.
[[nodiscard]] std::vector<RuleTick> ruleTicks(double from, double to, double pixelsPerMm,
                                              const UnitStyle& units, double room = 62);

} // namespace slab::ui
