#pragma once
// How the trial speaks.
#include "core/units/units.h"
#include <string>

namespace slab::trial {

inline constexpr double degree = 3.14159265358979323846 / 180;

/// Radius of a turn that is asked about where the chassis turns on the spot: nobody rides fast about a point,
/// mm (from memory).
inline constexpr double defaultTurn = 1500;

/// "1:12" of a rise over run; "level" of none.
[[nodiscard]] std::string slopeWords(double slope);
/// "4.5 km/h"; inch styles "2.8 mph".
[[nodiscard]] std::string speedWords(double millimetresPerSecond, const UnitStyle& style);
/// "120 N"; inch styles "27 lbf".
[[nodiscard]] std::string forceWords(double newtons, const UnitStyle& style);
/// "hull/port" of "plate:hull/port" things; what a solid or plate is called in findings' `about`.
[[nodiscard]] std::string aboutOf(const std::string& owner, bool plate);

} // namespace slab::trial
