#include "core/trial/words.h"
#include <cmath>
#include <cstdio>

namespace slab::trial {

std::string slopeWords(double slope) {
    if (!(slope > 0)) return "level";
    const double run = 1 / slope;
    char text[32];
    std::snprintf(text, sizeof text, std::abs(run - std::round(run)) < 0.05 ? "1:%.0f" : "1:%.1f", run);
    return text;
}

std::string speedWords(double speed, const UnitStyle& style) {
    constexpr double kmh = 1e6 / 3600, mph = 1609344.0 / 3600;
    char text[32];
    if (isInch(style))
        std::snprintf(text, sizeof text, "%.1f mph", speed / mph);
    else
        std::snprintf(text, sizeof text, "%.1f km/h", speed / kmh);
    return text;
}

std::string forceWords(double newtons, const UnitStyle& style) {
    constexpr double pound = 0.45359237 * 9.80665; // international pound, standard gravity
    char text[32];
    if (isInch(style))
        std::snprintf(text, sizeof text, "%.0f lbf", newtons / pound);
    else
        std::snprintf(text, sizeof text, "%.0f N", newtons);
    return text;
}

std::string aboutOf(const std::string& owner, bool plate) {
    return (plate ? "plate:" : "solid:") + owner;
}

} // namespace slab::trial
