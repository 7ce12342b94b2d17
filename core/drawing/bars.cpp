#include "core/drawing/bars.h"
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double inch = 25.4;

} // namespace

double barLength(double room, const UnitStyle& units) {
    constexpr double slack = 1e-9;
    if (isInch(units)) {
        const double whole = std::floor(room / inch + slack);
        return whole >= 4 ? whole * inch : 0;
    }
    const double fifties = std::floor(room / 50 + slack);
    return fifties >= 2 ? fifties * 50 : 0;
}

std::string barWords(double length, const UnitStyle& units) {
    return isInch(units) ? plain(length / inch, 3) + " in" : plain(length, 3) + " mm";
}

void drawBar(const Pen& pen, const Vec2& at, double length, const UnitStyle& units, const BarStyle& style) {
    const Vec2 along = style.upright ? Vec2(0, 1) : Vec2(1, 0);
    const Vec2 side = (style.flip ? -1.0 : 1.0) * Vec2(-along.y(), along.x());
    const LineStyle ink{0.2, Ink::quiet}, thin{0.13, Ink::quiet}; // lighter than any line to cut
    const double hundred = 100;
    pen.line(at, at + along * std::min(hundred, length), ink);
    if (length > hundred) pen.line(at + along * hundred, at + along * length, ink);
    const double step = isInch(units) ? inch : 10;
    const int ticks = static_cast<int>(std::lround(length / step));
    for (int i = 0; i <= ticks; ++i) {
        const bool end = i == 0 || i == ticks;
        const bool major = isInch(units) || i % 5 == 0;
        const Vec2 foot = at + along * (i * step);
        pen.line(foot, foot + side * (end ? 3.4 : major ? 2.2 : 1.3), end ? ink : thin);
    }
    const double turn = style.upright ? std::numbers::pi / 2 : 0;
    const WordStyle words{2.2, Align::left, Ink::line, false, false, turn};
    const bool wordsOnLeft = !style.flip;
    const double lift = wordsOnLeft ? 3.0 : 4.4;
    const WordStyle bold{2.2, Align::left, Ink::line, true, true, turn};
    const std::string length1 = barWords(length, units);
    const Vec2 start = at + along * 1.5 + side * lift;
    pen.words(start, length1, bold);
    pen.words(start + along * (textWidth(length1, bold.text()) + 1.5), style.note, words);
    if (isInch(units)) {
        const Vec2 foot = at + along * hundred;
        pen.line(foot, foot - side * 1.6, thin);
        pen.words(foot - side * (wordsOnLeft ? 3.2 : 1.8) + along * 0.8, "100 mm",
                  {1.9, Align::left, Ink::quiet, false, true, turn});
    }
}

} // namespace slab
