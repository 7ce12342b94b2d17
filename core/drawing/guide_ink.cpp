#include "core/drawing/guide_ink.h"
#include "core/drawing/panel_facts.h"
#include <cmath>
#include <numbers>

namespace slab {

void drawGuides(const Panel& panel, const PanelMap& map, Layer& marks) {
    constexpr double width = 0.2, inset = 3, longLine = 200; // mm
    const Pen pen(marks);
    for (const GuideLine& guide : panel.guides) {
        const Vec2 from = map(guide.from), to = map(guide.to), span = to - from;
        pen.line(from, to, {width, Ink::quiet, guide.inside ? Dash::dashed : Dash::solid});
        const double length = span.norm(), height = std::clamp(length / 12, 1.6, 2.6);
        const TextStyle style{height, false, false};
        const double wide = textWidth(guide.words, style);
        if (guide.words.empty() || wide + inset > length) continue;
        Vec2 along = span / length;
        const bool back = along.x() < -1e-9 || (std::abs(along.x()) <= 1e-9 && along.y() < 0);
        const Vec2 ahead = back ? Vec2(-along) : along;
        const Vec2 over(-ahead.y(), ahead.x());
        const double turn = std::atan2(ahead.y(), ahead.x());
        const auto write = [&](const Vec2& middle) {
            pen.wordsMiddle(middle + 0.75 * height * over, guide.words,
                            {height, Align::centre, Ink::quiet, false, false, turn});
        };
        write(from + along * (inset + wide / 2));
        if (length > longLine) write(to - along * (inset + wide / 2));
    }
}

Table guideTable(const Panel& panel, const UnitStyle& units) {
    const double figure = isInch(units) ? 17 : 13;
    Table table{"Marks from ⊕, not cut",
                {{"", 92 - 4 * figure},
                 {"right", figure, Align::right, true},
                 {"up", figure, Align::right, true},
                 {"to right", figure, Align::right, true},
                 {"up", figure, Align::right, true}},
                true,
                {},
                "Mark them with a soft pencil; measure each from the same corner.",
                true};
    const Vec2 datum = panel.boundary.outer.empty() ? Vec2::Zero() : bounds(panel.boundary.outer).min;
    for (const GuideLine& guide : panel.guides) {
        const Vec2 from = guide.from - datum, to = guide.to - datum;
        table.rows.push_back({guide.words + (guide.inside ? " (inside face)" : ""), size(from.x(), units),
                              size(from.y(), units), size(to.x(), units), size(to.y(), units)});
    }
    return table;
}

} // namespace slab
