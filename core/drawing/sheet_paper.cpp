#include "core/drawing/label_spot.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_view.h"
#include "core/drawing/paper_frame.h"
#include "core/drawing/tables.h"
#include "core/units/units.h"
#include <algorithm>

namespace slab {
namespace {

const Layer* layerOf(const Group& group, const std::string& name) {
    for (const Layer& layer : group.layers)
        if (layer.name == name) return &layer;
    return nullptr;
}

Box2 outerBox(const Group& group) {
    Box2 box{Vec2(1e300, 1e300), Vec2(-1e300, -1e300)};
    if (const Layer* outer = layerOf(group, "outer"))
        for (const Stroke& stroke : outer->strokes)
            for (const Vec2& p : stroke.points) {
                box.min = box.min.cwiseMin(p);
                box.max = box.max.cwiseMax(p);
            }
    return box;
}

Ring mapped(Ring ring, double scale, const Vec2& shift) {
    for (Vec2& p : ring) p = p * scale + shift;
    return ring;
}

/// The group at paper scale; line widths stay, words are set anew.
Group fitted(const Group& group, double scale, const Vec2& shift) {
    Group result = group;
    for (Layer& layer : result.layers) {
        for (Fill& fill : layer.fills) {
            fill.area.outer = mapped(fill.area.outer, scale, shift);
            for (Ring& hole : fill.area.holes) hole = mapped(hole, scale, shift);
        }
        for (Stroke& stroke : layer.strokes) {
            stroke.points = mapped(stroke.points, scale, shift);
            if (layer.name == "outer") stroke.width = 0.35;
            if (layer.name == "inner") stroke.width = 0.15;
        }
        for (Circle& circle : layer.circles) {
            circle.centre = circle.centre * scale + shift;
            circle.radius *= scale;
        }
        for (Label& label : layer.labels) {
            label.at = label.at * scale + shift;
            label.height *= scale;
        }
    }
    return result;
}

/// The number of a part in the table, and its name when there is room.
void nameOn(const Group& part, const std::string& number, Layer& words) {
    const Layer* outer = layerOf(part, "outer");
    if (!outer || outer->fills.empty()) return;
    const Polygon& area = outer->fills[0].area;
    const Pen pen(words);
    const std::string full = number + "  " + part.id;
    const Spot wide = labelSpot(area, textWidth(full, {1, true, false}));
    if (0.8 * wide.height >= 2) {
        const double height = std::min(3.4, 0.8 * wide.height);
        pen.wordsMiddle(wide.centre, full, {height, Align::centre, Ink::line, true, false, wide.turn});
        return;
    }
    const Spot small = labelSpot(area, std::max(1.0, textWidth(number, {1, true, false})));
    const double height = std::clamp(0.8 * small.height, 1.6, 3.0);
    pen.wordsMiddle(small.centre, number, {height, Align::centre, Ink::line, true, false, 0});
}

void dimension(const Pen& pen, const Area& sheet, double width, double length, const UnitStyle& units) {
    const double y = sheet.y - 5, x = sheet.x - 5;
    const LineStyle line{0.18, Ink::line}, tick{0.3, Ink::line};
    pen.line({sheet.x, y}, {sheet.right(), y}, line);
    pen.line({x, sheet.y}, {x, sheet.top()}, line);
    for (double at : {sheet.x, sheet.right()}) pen.line({at, y - 1.3}, {at, y + 1.3}, tick);
    for (double at : {sheet.y, sheet.top()}) pen.line({x - 1.3, at}, {x + 1.3, at}, tick);
    const WordStyle words{3, Align::centre, Ink::line, true, true};
    pen.wordsMiddle({sheet.x + sheet.width / 2, y - 3.4}, size(length, units), words);
    WordStyle upright = words;
    upright.turn = 1.5707963267948966;
    pen.wordsMiddle({x - 3.2, sheet.y + sheet.height / 2}, size(width, units), upright);
    const Vec2 corner(sheet.x, sheet.y);
    pen.circle(corner, 1.1, {0.2, Ink::chosen});
    pen.line(corner - Vec2(2, 0), corner + Vec2(2, 0), {0.2, Ink::chosen});
    pen.line(corner - Vec2(0, 2), corner + Vec2(0, 2), {0.2, Ink::chosen});
}

/// Words behind the panel's name in a placed group's title: copy, turn, face.
std::string placing(const Group& part) {
    constexpr std::string_view dot = " · ";
    const std::size_t from = part.id.size() + dot.size();
    return part.title.size() > from ? part.title.substr(from) : "";
}

} // namespace

Page sheetPaperPage(const Page& sheet, const std::string& title, double width, double height,
                    const UnitStyle& units) {
    Page page;
    page.name = sheet.name;
    page.width = width;
    page.height = height;
    page.overlay = {
        "frame", "frame", {{"frame", {}, {}, {}, {}}, {"tables", {}, {}, {}, {}}, {"words", {}, {}, {}, {}}}};
    const Pen frame(page.overlay.layers[0]), tables(page.overlay.layers[1]);
    const std::size_t dot = sheet.name.find(" · ");
    const std::string name = sheet.name.substr(0, dot);
    const std::string rest =
        dot == std::string::npos ? "" : sheet.name.substr(dot + std::string(" · ").size());
    Table table{"Panels",
                {{"", 7, Align::left, true},
                 {"panel", 30},
                 {"lies", 27},
                 {"from left", 18, Align::right, true},
                 {"from below", 18, Align::right, true}},
                true,
                {},
                "From the datum corner ⊕ of the sheet to the lower left of the panel's own box.",
                false};
    const bool landscape = width > height;
    const Area whole = drawFrame(frame, page, {title, name, rest, ""},
                                 landscape ? "OUTSIDE FACE UP unless said" : "OUTSIDE FACE UP", "");
    const double column = std::clamp(whole.width * 0.36, 92.0, 112.0);
    const Area view = landscape
                          ? Area{whole.x, whole.y, whole.width - column - 6, whole.height}
                          : Area{whole.x, whole.y + 0.45 * whole.height, whole.width, 0.55 * whole.height};
    const double sheetWidth = std::max(1.0, sheet.width), sheetHeight = std::max(1.0, sheet.height);
    const DrawingScale scale =
        niceScale(std::min((view.width - 14) / sheetWidth, (view.height - 14) / sheetHeight), units);
    const Area drawn{view.right() - sheetWidth * scale.factor - 1,
                     view.top() - sheetHeight * scale.factor - 1, sheetWidth * scale.factor,
                     sheetHeight * scale.factor};
    int number = 0;
    for (const Group& group : sheet.groups) {
        Group small = fitted(group, scale.factor, {drawn.x, drawn.y});
        if (group.id != "sheet") {
            const Box2 box = outerBox(group);
            for (Layer& layer : small.layers)
                if (layer.name == "marks") layer = {"marks", {}, {}, {}, {}};
            const std::string label = std::to_string(++number);
            nameOn(small, label, page.overlay.layers[2]);
            table.rows.push_back(
                {label, group.id, placing(group), size(box.min.x(), units), size(box.min.y(), units)});
        }
        page.groups.push_back(std::move(small));
    }
    dimension(frame, drawn, sheet.height, sheet.width, units);
    frame.words({width - pageMargin, height - pageMargin - 2.6}, "drawn " + scale.words,
                {3, Align::right, Ink::quiet});
    frame.words({width - pageMargin, pageMargin + 1},
                std::to_string(number) + (number == 1 ? " panel" : " panels"),
                {2.3, Align::right, Ink::quiet});
    std::vector<Area> areas;
    if (landscape)
        areas = {{whole.right() - column, whole.y, column, whole.height}};
    else
        areas = {{whole.x, whole.y, (whole.width - 6) / 2, 0.45 * whole.height - 16},
                 {whole.x + (whole.width + 6) / 2, whole.y, (whole.width - 6) / 2, 0.45 * whole.height - 16}};
    setTables(tables, areas, {table});
    return page;
}

} // namespace slab
