#include "core/drawing/panel_view.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace slab {
namespace {

constexpr double cellWidth = 31.5, cellHeight = 25.5, slab = 7, reach = 23;

int cellsAcross(double width) {
    return std::max(1, static_cast<int>(width / cellWidth));
}

std::string tiltWords(const BevelKind& kind) {
    const double least = std::min(std::abs(kind.leastTilt), std::abs(kind.mostTilt));
    const double most = std::max(std::abs(kind.leastTilt), std::abs(kind.mostTilt));
    if (most - least < 0.2 * 3.14159265 / 180) return printAngle(std::abs(kind.tilt));
    return printAngle(least) + "–" + printAngle(most);
}

/// One edge seen along its length: the outside face on top, the cut at the right, a dotted square for
/// comparison.
void drawCell(const Pen& pen, const Vec2& top, const BevelKind& kind, Ink tint) {
    const double tilt = std::min(std::abs(kind.tilt), 1.05); // 60°: steeper ones are only drawn so far
    const double step = std::min(slab * std::tan(tilt), reach - 8);
    const bool outsideLong = kind.tilt > 0;
    const double y1 = top.y() - 6.2, y0 = y1 - slab, x0 = top.x() + 2, x1 = x0 + reach;
    const Vec2 upper(outsideLong ? x1 : x1 - step, y1), lower(outsideLong ? x1 - step : x1, y0);
    pen.fill(Ring{{x0, y0}, lower, upper, {x0, y1}}, tint);
    pen.line({x0, y1}, upper, {0.35, Ink::line});
    pen.line({x0, y0}, lower, {0.35, Ink::line});
    pen.line(upper, lower, {0.5, Ink::line});
    pen.path({{x0, y0}, {x0 + 0.8, y0 + slab * 0.35}, {x0 - 0.8, y0 + slab * 0.65}, {x0, y1}}, false,
             {0.13, Ink::quiet});
    pen.line({x1, y0 - 1.6}, {x1, y1 + 1.6}, {0.15, Ink::quiet, Dash::dotted});
    pen.words({x0, y1 + 0.9}, "outside", {1.9, Align::left, Ink::quiet});
    pen.words({x0, top.y() - 2.4}, std::string(1, kind.letter), {3, Align::left, Ink::line, true});
    pen.words({x0 + 3.4, top.y() - 2.4}, tiltWords(kind) + " from square",
              {2.4, Align::left, Ink::line, false, false});
    pen.words({x0, y0 - 3.2}, outsideLong ? "outside face is long" : "inside face is long", {2.2});
    const std::string edges = (kind.edges.size() == 1 ? "edge " : "edges ") + runsOf(kind.edges);
    pen.words({x0, y0 - 6.2}, elided(edges, cellWidth - 4, {2.2, false, false}),
              {2.2, Align::left, Ink::quiet});
}

} // namespace

std::string runsOf(const std::vector<std::string>& names) {
    // "P12" is letters and a number; a run has the letters alike and the numbers rising by one.
    const auto numberOf = [](const std::string& name) {
        const std::size_t at = name.find_first_of("0123456789");
        return at == std::string::npos ? -1 : std::atoi(name.c_str() + at);
    };
    const auto follows = [&](const std::string& a, const std::string& b) {
        const std::size_t at = a.find_first_of("0123456789");
        return at != std::string::npos && b.compare(0, at, a, 0, at) == 0 && numberOf(b) == numberOf(a) + 1;
    };
    std::string words;
    for (std::size_t i = 0; i < names.size();) {
        std::size_t last = i;
        while (last + 1 < names.size() && follows(names[last], names[last + 1])) ++last;
        words += (words.empty() ? "" : ", ") + names[i];
        if (last == i + 1) words += ", " + names[last];
        if (last > i + 1) words += "–" + names[last];
        i = last + 1;
    }
    return words;
}

double bevelsHeight(std::size_t kinds, double width) {
    const auto across = static_cast<std::size_t>(cellsAcross(width));
    return static_cast<double>((kinds + across - 1) / across) * cellHeight;
}

double drawBevels(const Pen& pen, const Area& area, const std::vector<BevelKind>& kinds, Ink tint) {
    const auto across = static_cast<std::size_t>(cellsAcross(area.width));
    for (std::size_t i = 0; i < kinds.size(); ++i)
        drawCell(pen,
                 {area.x + static_cast<double>(i % across) * cellWidth,
                  area.top() - static_cast<double>(i / across) * cellHeight},
                 kinds[i], tint);
    return bevelsHeight(kinds.size(), area.width);
}

} // namespace slab
