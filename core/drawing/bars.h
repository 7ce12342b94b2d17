#pragma once
// Bars that tell by a tape measure whether a page came out at true size.
#include "core/drawing/pen.h"
#include "core/units/units.h"

namespace slab {

/// Longest round length that fits in `room` mm: multiples of 50 mm, or of 1 in for inch styles (4 in at least
/// … 100 mm at least); 0 when not even that fits.
[[nodiscard]] double barLength(double room, const UnitStyle& units);
/// "150 mm" or "7 in".
[[nodiscard]] std::string barWords(double length, const UnitStyle& units);

/// Bar from `at` along the page's x (turn 0) or y (turn π/2). Its first 100 mm are one stroke of their own,
/// marked. Ticks and words stand on its left side, seen along the bar; `flip` puts them on the other.
struct BarStyle {
    bool upright = false, flip = false;
    std::string note; ///< after the length
};
void drawBar(const Pen& pen, const Vec2& at, double length, const UnitStyle& units, const BarStyle& style);

} // namespace slab
