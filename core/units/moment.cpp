#include "core/units/moment.h"
#include <cmath>
#include <cstdio>

namespace slab {

std::string printMoment(double newtonMetres, const UnitStyle& style) {
    if (!std::isfinite(newtonMetres)) return "?";
    constexpr double poundFoot = 0.45359237 * 9.80665 * 0.3048;
    const bool imperial = isInch(style);
    char text[64];
    std::snprintf(text, sizeof text, "%.1f %s", imperial ? newtonMetres / poundFoot : newtonMetres,
                  imperial ? "lbf ft" : "N m");
    return text;
}

} // namespace slab
