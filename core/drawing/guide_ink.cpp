#include "core/drawing/guide_ink.h"
#include "core/drawing/panel_facts.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double inset = 3; ///< mm of paper, from the line's end to its words

/// Words beside a guide line: once, at both ends of a long one; none where they do not fit.
struct GuideWords {
    const GuideLine& guide;
    std::vector<Vec2> middles;
    double height = 0, wide = 0, turn = 0;
};

GuideWords wordsOf(const GuideLine& guide, const PanelMap& map) {
    constexpr double longLine = 200; // mm
    const Vec2 from = map(guide.from), to = map(guide.to), span = to - from;
    const double length = span.norm();
    GuideWords words{guide, {}, std::clamp(length / 12, 1.6, 2.6), 0, 0};
    words.wide = textWidth(guide.words, {words.height, false, false});
    if (guide.words.empty() || words.wide + inset > length) return words;
    const Vec2 along = span / length;
    const bool back = along.x() < -1e-9 || (std::abs(along.x()) <= 1e-9 && along.y() < 0);
    const Vec2 ahead = back ? Vec2(-along) : along;
    const Vec2 over = 0.75 * words.height * Vec2(-ahead.y(), ahead.x());
    words.turn = std::atan2(ahead.y(), ahead.x());
    words.middles.push_back(from + along * (inset + words.wide / 2) + over);
    if (length > longLine) words.middles.push_back(to - along * (inset + words.wide / 2) + over);
    return words;
}

} // namespace

void drawGuides(const Panel& panel, const PanelMap& map, Layer& marks) {
    constexpr double width = 0.2; // mm
    const Pen pen(marks);
    for (const GuideLine& guide : panel.guides) {
        pen.line(map(guide.from), map(guide.to),
                 {width, Ink::quiet, guide.inside ? Dash::dashed : Dash::solid});
        const GuideWords words = wordsOf(guide, map);
        for (const Vec2& middle : words.middles)
            pen.wordsMiddle(middle, guide.words,
                            {words.height, Align::centre, Ink::quiet, false, false, words.turn});
    }
}

std::vector<Ring> guideWordAreas(const Panel& panel, const PanelMap& map) {
    constexpr double air = 0.4; // mm of paper round the words
    std::vector<Ring> areas;
    for (const GuideLine& guide : panel.guides) {
        const GuideWords words = wordsOf(guide, map);
        const Vec2 ahead(std::cos(words.turn), std::sin(words.turn));
        const Vec2 right = (words.wide / 2 + air) * ahead,
                   up = (0.6 * words.height + air) * Vec2(-ahead.y(), ahead.x());
        for (const Vec2& m : words.middles)
            areas.push_back({m - right - up, m + right - up, m + right + up, m - right + up});
    }
    return areas;
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
