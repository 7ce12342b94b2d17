#include "core/drawing/fold_ink.h"
#include "core/drawing/label_spot.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double foldWidth = 0.35, borderWidth = 0.2;

std::string angleWords(const PanelFold& fold) {
    return plain(fold.angle * 180 / std::numbers::pi, 1) + "°";
}

std::string grooveWords(const PanelFold& fold, const UnitStyle& units) {
    const std::string width = isInch(units) ? size(fold.width, units) : plain(fold.width, 1) + " mm";
    return std::string(fold.valley ? "outside " : "inside ") + width;
}

/// Two plates; the form is said once where both are of it.
std::string together(const std::string& a, const std::string& b) {
    const auto slash = a.find('/');
    const bool same = slash != std::string::npos && b.compare(0, slash + 1, a, 0, slash + 1) == 0;
    return a + ", " + (same ? b.substr(slash + 1) : b);
}

} // namespace

void drawFolds(const Panel& panel, const PanelMap& map, Group& group) {
    if (panel.folds.empty()) return;
    Layer lines{"folds", {}, {}, {}, {}};
    const auto inner = std::find_if(group.layers.begin(), group.layers.end(),
                                    [](const Layer& layer) { return layer.name == "inner"; });
    for (const PanelFold& fold : panel.folds) {
        const LineStyle border = fold.valley ? LineStyle{borderWidth, Ink::line, Dash::dashDot}
                                             : LineStyle{0.25, Ink::line, Dash::dashed};
        const Pen borders(fold.valley || inner == group.layers.end() ? lines : *inner);
        const Ring mouth = map.ring(fold.mouth);
        for (std::size_t i = 0; i + 1 < mouth.size(); i += 2) borders.line(mouth[i], mouth[i + 1], border);
        Pen(lines).line(map(fold.from), map(fold.to), {foldWidth, Ink::line, Dash::dashDot});
    }
    group.layers.push_back(std::move(lines));
}

std::string foldWords(const PanelFold& fold, const UnitStyle& units, bool full) {
    const std::string words = "fold " + angleWords(fold);
    return full ? words + ", groove " + grooveWords(fold, units) : words;
}

void drawFoldWords(const PanelFold& fold, const Vec2& from, const Vec2& to, const UnitStyle& units,
                   const Pen& pen, const std::string& tag, double scale) {
    const double length = (to - from).norm(), most = std::clamp(length / 8, 1.6, 3.2);
    constexpr double least = 2; // smaller letters rather than fewer words, down to here
    std::string words = tag + foldWords(fold, units);
    double height = std::min(most, 0.85 * length / textWidth(words, {1, false, false}));
    if (height < least) {
        height = most;
        words = tag + foldWords(fold, units, false);
    }
    const auto tooLong = [&] { return textWidth(words, {height, false, false}) > 0.9 * length; };
    if (tooLong() && !tag.empty()) words = tag.substr(0, tag.find(' '));
    if (tooLong()) return;
    const Vec2 along = (to - from) / length, aside(along.y(), -along.x()); // on the plate that is folded up
    const double border = grooveAside(fold) * scale; // words stand before it if there is room, else behind it
    const double away = border > 1.9 * height ? 0.9 * height : border + 0.9 * height;
    pen.wordsMiddle((from + to) / 2 + away * aside, words,
                    {height, Align::centre, Ink::quiet, false, false, readable(along)});
}

Table foldTable(const Panel& panel, const UnitStyle& units) {
    Table table{"Folds",
                {{"fold", 8, Align::left, true},
                 {"between", 32, Align::left, false},
                 {"by", 12, Align::right, true},
                 {"groove", 24, Align::left, false},
                 {"length", 18, Align::right, true}},
                true,
                {},
                "Groove down to a skin that bends; do not cut through. Its angle is the fold's.",
                false};
    for (std::size_t i = 0; i < panel.folds.size(); ++i) {
        const PanelFold& fold = panel.folds[i];
        table.rows.push_back({"F" + std::to_string(i + 1),
                              together(panel.parts[static_cast<std::size_t>(fold.a)].plate,
                                       panel.parts[static_cast<std::size_t>(fold.b)].plate),
                              angleWords(fold), grooveWords(fold, units),
                              size((fold.to - fold.from).norm(), units)});
    }
    return table;
}

} // namespace slab
