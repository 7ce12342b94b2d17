#include "core/drawing/paper_frame.h"
#include "core/drawing/palette.h"

namespace slab {

Area drawFrame(const Pen& pen, const Page& page, const Head& head, const std::string& footLeft,
               const std::string& footRight) {
    const double left = pageMargin, right = page.width - pageMargin, top = page.height - pageMargin;
    const double cornerWidth = textWidth(head.corner, {3, false, false});
    pen.words({left, top - 2.6}, elided(head.over, right - left - cornerWidth - 6, {3, false, false}),
              {3, Align::left, Ink::quiet});
    pen.words({right, top - 2.6}, head.corner, {3, Align::right, Ink::quiet});
    const std::string title = elided(head.title, 0.62 * (right - left), {6.6, true, false});
    pen.words({left, top - 10.6}, title, {6.6, Align::left, Ink::line, true});
    const double behind = left + textWidth(title, {6.6, true, false}) + 4;
    pen.words({behind, top - 10.6}, elided(head.subject, right - behind, {3.2, false, false}),
              {3.2, Align::left, Ink::quiet});
    pen.line({left, top - 13.6}, {right, top - 13.6}, {0.35, Ink::line});
    pen.line({left, pageMargin + 5}, {right, pageMargin + 5}, {0.18, Ink::line});
    pen.words({left, pageMargin + 1}, footLeft, {2.7, Align::left, Ink::line, true});
    pen.words({right, pageMargin + 1}, footRight, {2.3, Align::right, Ink::quiet});
    return {left, pageMargin + 7.5, right - left, top - 13.6 - 4 - (pageMargin + 7.5)};
}

double drawLegend(const Pen& pen, const Vec2& at) {
    struct Sample {
        const char* word;
        LineStyle line;
    };
    const Sample samples[] = {{"cut", {0.5, Ink::line}},
                              {"inside face", {0.25, Ink::line, Dash::dashed}},
                              {"fold", {0.35, Ink::line, Dash::dashDot}},
                              {"stands here", {0.25, Ink::line, Dash::dotted}},
                              {"reference", {0.15, Ink::quiet}}};
    double x = at.x();
    for (const Sample& sample : samples) {
        pen.line({x, at.y() + 0.8}, {x + 9.6, at.y() + 0.8}, sample.line);
        pen.words({x + 11, at.y()}, sample.word, {2.3, Align::left, Ink::quiet});
        x += 11 + textWidth(sample.word, {2.3, false, false}) + 4.5;
    }
    return x;
}

void addCautions(Page& page) {
    page.overlay.layers.push_back({"cautions", {}, {}, {}, {}});
    const WordStyle small{1.9, Align::left, Ink::quiet};
    const std::string words =
        "Cut with a sharp blade, away from hands, on a firm support. Solvent adhesives, paints and sprays "
        "can eat foam "
        "and harm health: follow their makers' instructions, air the room, keep children clear.";
    const double width = page.width - 2 * pageMargin;
    const std::vector<std::string> lines = wrapped(words, width, small.text());
    double y = pageMargin - 3.2 + (lines.size() > 1 ? 0.9 : 0);
    for (const std::string& line : lines) {
        Pen(page.overlay.layers.back()).words({pageMargin, y}, line, small);
        y -= 2.6;
    }
}

} // namespace slab
