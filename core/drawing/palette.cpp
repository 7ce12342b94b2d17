#include "core/drawing/palette.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

constexpr unsigned hexOf(Ink ink) {
    switch (ink) {
    case Ink::line:
        return 0x1F2A33;
    case Ink::quiet:
        return 0x5F6A74;
    case Ink::chosen:
        return 0x2F6DB5;
    case Ink::fits:
        return 0x1F7A71;
    case Ink::tight:
        return 0xC98A12;
    case Ink::hits:
        return 0xC8452A;
    case Ink::foam:
        return 0xE3EDF3;
    case Ink::hardboard:
        return 0xEAD9C2;
    case Ink::plywood:
        return 0xF2E2C4;
    case Ink::card:
        return 0xEBDCC4;
    case Ink::plastic:
        return 0xE9E7EF;
    case Ink::paper:
        return 0xFFFFFF;
    case Ink::pale:
        return 0xB4C0CA;
    }
    return 0;
}

/// Where the 45° line y - x = c crosses the ring, as x.
void crossings(const Ring& ring, double c, std::vector<double>& at) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        const double fa = a.y() - a.x() - c, fb = b.y() - b.x() - c;
        if ((fa < 0) == (fb < 0)) continue;
        at.push_back(a.x() + (b.x() - a.x()) * fa / (fa - fb));
    }
}

} // namespace

Rgb paperColour(Ink ink) {
    const unsigned hex = hexOf(ink);
    return {((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0};
}

std::string hexColour(Ink ink) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string text = "#";
    for (int shift = 20; shift >= 0; shift -= 4) text += digits[(hexOf(ink) >> shift) & 15];
    return text;
}

std::vector<double> dashPattern(Dash dash) {
    switch (dash) {
    case Dash::dashed:
        return {2.6, 1.3};
    case Dash::dashDot:
        return {6, 1.4, 0.8, 1.4};
    case Dash::dotted:
        return {0.5, 1.1};
    case Dash::solid:
        break;
    }
    return {};
}

std::vector<std::pair<Vec2, Vec2>> hatchLines(const Polygon& area) {
    std::vector<std::pair<Vec2, Vec2>> lines;
    if (area.outer.size() < 3) return lines;
    double low = area.outer[0].y() - area.outer[0].x(), high = low;
    for (const Vec2& p : area.outer) {
        low = std::min(low, p.y() - p.x());
        high = std::max(high, p.y() - p.x());
    }
    const double step = hatchStep * std::sqrt(2.0);
    for (double c = (std::floor(low / step) + 0.5) * step; c < high; c += step) {
        std::vector<double> at;
        crossings(area.outer, c, at);
        for (const Ring& hole : area.holes) crossings(hole, c, at);
        std::sort(at.begin(), at.end());
        for (std::size_t i = 0; i + 1 < at.size(); i += 2)
            lines.push_back({Vec2(at[i], at[i] + c), Vec2(at[i + 1], at[i + 1] + c)});
    }
    return lines;
}

} // namespace slab
