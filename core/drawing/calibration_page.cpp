#include "core/drawing/bars.h"
#include "core/drawing/paper_frame.h"
#include "core/drawing/sheets.h"
#include "core/drawing/tiles.h"
#include <algorithm>
#include <numbers>

namespace slab {
namespace {

/// What a printer does to a page, and by which factor everything on it shrinks.
struct Failure {
    std::string what;
    double factor;
};

/// Worked out from the paper sizes themselves: “fit to page” between margins of 6.35 mm (common practice),
/// and the page shrunk to another sheet of nearly its size.
std::vector<Failure> failuresOn(const Paper& paper) {
    constexpr double margins = 12.7, smallest = 0.9;
    std::vector<Failure> all{{"right", 1}, {"“fit to page” was on", (paper.width - margins) / paper.width}};
    if (paper.height <= 0) return all;
    for (const std::string& name : paperNames()) {
        const auto other = paperNamed(name);
        if (!other || other->name == paper.name || other->height <= 0) continue;
        const double factor = std::min(other->width / paper.width, other->height / paper.height);
        if (factor < 1 && factor > smallest) all.push_back({"shrunk to " + name, factor});
    }
    return all;
}

void drawSquare(const Pen& pen, const Vec2& at, const UnitStyle& units) {
    const double side = isInch(units) ? 4 * 25.4 : 100;
    const std::string words = barWords(side, units), across = isInch(units) ? "5.66 in" : "141.4 mm";
    const LineStyle ink{0.3, Ink::line};
    const Vec2 right(side, 0), up(0, side);
    pen.line(at, at + right, ink);
    pen.line(at + right, at + right + up, ink);
    pen.line(at + right + up, at + up, ink);
    pen.line(at + up, at, ink);
    pen.line(at, at + right + up, {0.13, Ink::quiet, Dash::dotted});
    pen.line(at + right, at + up, {0.13, Ink::quiet, Dash::dotted});
    pen.wordsMiddle(at + Vec2(side / 2, 4), words, {2.6, Align::centre, Ink::line, true, true});
    pen.wordsMiddle(at + Vec2(4, side / 2), words,
                    {2.6, Align::centre, Ink::line, true, true, std::numbers::pi / 2});
    pen.wordsMiddle(at + Vec2(side / 2, side - 5), "both diagonals alike: " + across,
                    {2.3, Align::centre, Ink::quiet});
}

/// Steps in words. @return y below
double drawSteps(const Pen& pen, const Area& area, const std::vector<std::string>& steps) {
    double y = area.top();
    for (std::size_t i = 0; i < steps.size(); ++i) {
        pen.words({area.x, y - 3}, std::to_string(i + 1), {3, Align::left, Ink::line, true, true});
        for (const std::string& line : wrapped(steps[i], area.width - 6, {2.7, false, false})) {
            y -= 4;
            pen.words({area.x + 6, y + 1}, line, {2.7});
        }
        y -= 1.6;
    }
    return y;
}

/// How to read a template page.
void drawKey(const Pen& pen, const Area& area) {
    double y = area.top() - 3;
    pen.words({area.x, y}, "Lines and marks", {2.7, Align::left, Ink::line, true});
    y -= 1.6;
    pen.line({area.x, y}, {area.right(), y}, {0.2, Ink::line});
    const auto row = [&](const std::string& words) {
        y -= 5.2;
        pen.words({area.x + 15, y}, words, {2.5, Align::left, Ink::quiet});
        return Vec2(area.x, y + 0.9);
    };
    const auto sample = [&](const LineStyle& style, const std::string& words) {
        const Vec2 at = row(words);
        pen.line(at, at + Vec2(11.5, 0), style);
    };
    sample({0.5, Ink::line}, "cut, outside face");
    sample({0.25, Ink::line, Dash::dashed}, "outline of the inside face");
    sample({0.35, Ink::line, Dash::dashDot}, "fold: score, do not cut through");
    sample({0.18, Ink::quiet}, "centre and size lines");
    sample({0.15, Ink::quiet, Dash::dotted}, "middle of the overlap");
    const Vec2 wedge = row("match mark: like numbers meet") + Vec2(3, 1.6);
    pen.fill(Ring{wedge, wedge + Vec2(-0.9, -3), wedge + Vec2(0.9, -3)}, Ink::line);
    pen.words(wedge + Vec2(2, -2.5), "12", {2.5, Align::left, Ink::line});
    const Vec2 cross = row("register cross: lay one on the other") + Vec2(5, 0);
    pen.line(cross - Vec2(2.2, 0), cross + Vec2(2.2, 0), {0.15, Ink::line});
    pen.line(cross - Vec2(0, 2.2), cross + Vec2(0, 2.2), {0.15, Ink::line});
    pen.circle(cross, 1.2, {0.15, Ink::line});
}

/// Causes that the bar cannot tell apart share a line.
void drawFailures(const Pen& pen, const Area& area, double length, const TemplateOptions& options) {
    double y = area.top() - 3;
    pen.words({area.x, y}, "What the " + barWords(length, options.units) + " bar shows",
              {2.7, Align::left, Ink::line, true});
    y -= 1.6;
    pen.line({area.x, y}, {area.right(), y}, {0.2, Ink::line});
    std::vector<std::pair<std::string, std::string>> rows;
    for (const Failure& failure : failuresOn(options.paper)) {
        const double seen = length * failure.factor;
        const std::string figure =
            isInch(options.units) ? plain(seen / 25.4, 2) + " in" : plain(seen, 1) + " mm";
        const auto same =
            std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.first == figure; });
        if (same != rows.end())
            same->second += ", or " + failure.what;
        else
            rows.emplace_back(figure, failure.what);
    }
    for (const auto& [figure, what] : rows) {
        y -= 4.2;
        pen.words({area.x, y}, figure, {2.5, Align::left, Ink::line, what == "right", true});
        pen.words({area.x + 20, y}, what, {2.5, Align::left, Ink::quiet});
    }
}

} // namespace

Page calibrationPage(const TemplateOptions& options) {
    Page page;
    page.name = "Print this page first";
    page.width = options.paper.width;
    page.height =
        options.paper.height > 0 ? options.paper.height : 240; // a roll gives no more than is needed
    page.overlay = {"calibration", page.name, {{"frame", {}, {}, {}, {}}, {"bars", {}, {}, {}, {}}}};
    const Pen pen(page.overlay.layers[0]), bars(page.overlay.layers[1]);
    const Area body =
        drawFrame(pen, page, {options.title, page.name, "", options.paper.name}, "100 %, NO SCALING", "");
    const double across = barLength(body.width - 16, options.units);
    const double up = barLength(body.height - 14, options.units);
    drawBar(bars, {body.x + 12, body.y + 1}, across, options.units, {false, false, "across"});
    drawBar(bars, {body.x + 5, body.y + 10}, up, options.units, {true, false, "along"});
    const Area inner{body.x + 12, body.y + 14, body.width - 12, body.height - 14};
    const std::vector<std::string> steps = {
        "In the printer's window choose “actual size” or 100 %. Switch off “fit to page”. Paper: " +
            options.paper.name + ".",
        "Print this page alone and lay a steel rule on both long bars and on the square, in both directions.",
        "Only when they agree print the templates. Each template page carries bars too: measure one in every "
        "batch, "
        "paper creeps with damp.",
        "Join pages at the crosses, two circles on each other; the dotted line is the middle of the "
        "overlap."};
    const double y = drawSteps(pen, {inner.x, inner.y, std::min(inner.width, 160.0), inner.height}, steps);
    const bool beside = inner.width > 168;
    const double squareY = std::max(inner.y, y - 6 - 102);
    drawSquare(bars, {inner.x, squareY}, options.units);
    const Area side = beside ? Area{inner.x + 108, squareY, std::min(inner.width - 108, 70.0), 100}
                             : Area{inner.x, inner.y, 70, squareY - inner.y - 4};
    const double length = across > 0 ? across : 100;
    drawFailures(pen, side, length, options);
    const double keyRoom = 58;
    if (beside) // wide paper has room under the failures
        drawKey(pen, {side.x, squareY, side.width, 100 - 36});
    else if (squareY - inner.y > keyRoom)
        drawKey(pen, {inner.x + 78, inner.y, inner.width - 80, squareY - inner.y - 4});
    return page;
}

} // namespace slab
