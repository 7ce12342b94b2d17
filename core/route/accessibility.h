#pragma once
// Published figures for doors, routes, ramps and chairs, as ready examples. They guide; local rules govern.
#include <optional>
#include <string_view>
#include <vector>

namespace slab::route {

/// How far a figure can be trusted.
enum class Basis {
    read,     ///< seen in a public copy or quotation, see `seen`
    computed, ///< follows from figures that were read
    recalled  ///< from memory
};
enum class Measure { millimetres, radians, ratio, kilograms, millimetresPerSecond };

struct AccessFigure {
    std::string_view id;   ///< stable key, e.g. "door-width"
    std::string_view what; ///< plain words
    double value = 0;      ///< mm, rad, rise over run, kg or mm/s
    Measure measure = Measure::millimetres;
    bool most = false;        ///< a greatest value; else a least one, or a size
    std::string_view section; ///< standard and section
    std::string_view seen;    ///< where it was seen; empty if recalled
    Basis basis = Basis::read;
};
/// All of them, in one table.
[[nodiscard]] const std::vector<AccessFigure>& accessFigures();
/// One of them; nothing if there is none of that key.
[[nodiscard]] std::optional<AccessFigure> accessFigure(std::string_view id);
/// Steepest that a ramp of a height is built, rise over run: 1:12, and where there is no room for that 1:10
/// up to 6 in and 1:8 up to 3 in of height.
/// @param rise  mm
/// @source  ADA 2010 405.2
[[nodiscard]] double mostRampSlope(double rise);

} // namespace slab::route
