#pragma once
#include "core/drawing/drawing.h"
#include <string>
#include <vector>

namespace slab {

struct Rgb {
    double r = 0, g = 0, b = 0; ///< [0, 1]
    bool operator==(const Rgb&) const = default;
};
/// Ink as printed on white paper. Meaning never hangs on colour alone: dash and words say the same.
[[nodiscard]] Rgb paperColour(Ink ink);
/// "#1f2a33"
[[nodiscard]] std::string hexColour(Ink ink);
/// On and off lengths, mm on paper; empty = solid.
[[nodiscard]] std::vector<double> dashPattern(Dash dash);
/// Spacing and width of hatch lines, mm on paper; they run at 45°.
inline constexpr double hatchStep = 2.5, hatchWidth = 0.15;
/// Hatch lines of an area, each clipped to it (even-odd, so holes stay free).
[[nodiscard]] std::vector<std::pair<Vec2, Vec2>> hatchLines(const Polygon& area);

} // namespace slab
