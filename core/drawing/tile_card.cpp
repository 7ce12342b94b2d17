#include "core/drawing/tile_card.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

constexpr double wordsWidth = 47, mapWidth = 27, height = 37, pad = 2.5;

bool tiled(const CardFacts& facts) {
    return facts.plan->columns * facts.plan->rows > 1;
}

std::string copyWords(const CardFacts& facts) {
    const auto copies = facts.panel->copyCount();
    std::string words = copies > 1 ? "cut " + std::to_string(copies) : "cut 1";
    if (facts.options.copy > 1)
        words = "copy " + std::to_string(facts.options.copy) + " of " +
                std::to_string(std::max<std::size_t>(copies, 1));
    const std::string hand = handWords(*facts.panel);
    return hand.empty() ? words : words + " · " + hand;
}

} // namespace

Vec2 cardSize(const CardFacts& facts) {
    return {wordsWidth + 2 * pad + (tiled(facts) ? mapWidth + pad : 0), height};
}

void drawMap(const Pen& pen, const Area& area, const CardFacts& facts) {
    const TilePlan& plan = *facts.plan;
    const Vec2 whole = plan.corner(plan.columns, plan.rows) + Vec2(plan.overlap, plan.overlap) - plan.origin;
    const double scale = std::min(area.width / whole.x(), area.height / whole.y());
    const Vec2 low = Vec2(area.x + area.width, area.top()) - whole * scale;
    const PanelMap map{scale, low - plan.origin * scale};
    const Vec2 cell = plan.pitch() * scale, first = low + Vec2(plan.overlap, plan.overlap) / 2 * scale;
    for (int row = 0; row < plan.rows; ++row)
        for (int column = 0; column < plan.columns; ++column) {
            const Area box{first.x() + column * cell.x(), first.y() + row * cell.y(), cell.x(), cell.y()};
            const bool here = column == facts.column && row == facts.row;
            if (here) pen.fill(box, Ink::pale);
            if (plan.isPrinted(column, row))
                pen.box(box, {0.15, Ink::quiet});
            else
                pen.box(box, {0.12, Ink::pale, Dash::dotted});
        }
    for (const Ring& ring : drawnRings(*facts.panel)) pen.path(map.ring(ring), true, {0.2, Ink::line});
    for (int row = 0; row < plan.rows; ++row)
        for (int column = 0; column < plan.columns; ++column) {
            const double letters = std::min({2.0, cell.y() * 0.5, cell.x() * 0.4});
            if (!plan.isPrinted(column, row) || letters < 1.1) continue;
            const bool here = column == facts.column && row == facts.row;
            pen.wordsMiddle(first + Vec2((column + 0.5) * cell.x(), (row + 0.5) * cell.y()),
                            plan.tileName(column, row), {letters, Align::centre, Ink::line, here});
        }
}

void drawCard(const Pen& pen, const Area& area, const CardFacts& facts) {
    const Panel& panel = *facts.panel;
    pen.box(area, {0.15, Ink::pale});
    const double x = area.x + pad;
    double y = area.top() - pad - 5;
    const std::string tile = facts.plan->tileName(facts.column, facts.row);
    pen.words({x, y}, tile, {7, Align::left, Ink::line, true});
    pen.words({x + textWidth(tile, {7, true, false}) + 2, y},
              std::to_string(facts.number) + " of " + std::to_string(facts.count),
              {3, Align::left, Ink::quiet});
    y -= 5.6;
    pen.words({x, y}, elided(panel.name, wordsWidth, {3.6, true, false}),
              {3.6, Align::left, Ink::line, true});
    y -= 4.2;
    const TextStyle small{2.5, false, false};
    pen.words({x, y}, elided(copyWords(facts), wordsWidth, small), {2.5});
    y -= 3.8;
    // The thickness, and that it is nominal, stand whole; a long name of the stock gives way.
    const std::string thickness = " · " + thicknessWords(panel, facts.options.nominal, facts.options.units);
    const TextStyle bold{2.5, facts.options.nominal, false};
    constexpr double least = 0.8; // smaller letters before fewer
    const double room = std::max(6.0, wordsWidth / least - textWidth(thickness, bold));
    const std::string stock = elided(panel.stock, room, bold);
    const double letters = std::min(1.0, wordsWidth / textWidth(stock + thickness, bold)) * bold.height;
    pen.words({x, y}, stock + thickness, {letters, Align::left, Ink::line, facts.options.nominal});
    y -= 5.4;
    const Vec2 up = panel.up.normalized(), middle(x + 2.6, y + 0.9);
    pen.arrow(middle - 2.6 * up, middle + 2.6 * up, 1.9, {0.35, Ink::line});
    pen.words({x + 6.6, y + 1.3}, "OUTSIDE FACE UP", {2.7, Align::left, Ink::line, true});
    const auto& arrows = facts.options.arrows;
    const auto copy = static_cast<std::size_t>(std::max(facts.options.copy, 1)) - 1;
    // A card for one copy of several tells that one's way.
    std::string lies =
        (copy > 0 && copy < arrows.size() ? "arrow points " + arrows[copy] : arrowWords(panel, arrows)) +
        facingNote(facts.options.facing);
    if (const auto lean = lies.find(" ("); lean != std::string::npos) lies.resize(lean); // the drawing has it
    const double fit = std::min(1.0, (wordsWidth - 6.6) / textWidth(lies, {2.2, false, false}));
    pen.words({x + 6.6, y - 1.8}, lies, {2.2 * fit, Align::left, Ink::quiet});
    y -= 6.6;
    pen.words({x, y}, "Print at 100 %, no scaling.", {2.2, Align::left, Ink::quiet});
    const Area map{area.right() - pad - mapWidth, area.y + pad, mapWidth, area.height - 2 * pad};
    if (tiled(facts)) drawMap(pen, map, facts);
}

} // namespace slab
