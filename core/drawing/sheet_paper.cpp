#include "core/drawing/label_spot.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
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
    Polygon area = outer->fills[0].area;
    if (const Layer* folds = layerOf(part, "folds"))
        for (const Stroke& line : folds->strokes)
            if (line.points.size() == 2) area.holes.push_back(foldStrip(line.points[0], line.points[1], 0.5));
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

/// Which copy lies there and how: read from the title of a placed group, "roof · copy 2 of 3 · turned 90°".
struct Placing {
    std::string copy, turn;
};
Placing placing(const Group& part) {
    constexpr std::string_view dot = " · ", copy = "copy ", turned = "turned ";
    Placing result;
    std::string rest = part.title.size() > part.id.size() ? part.title.substr(part.id.size()) : "";
    while (rest.starts_with(dot)) {
        rest.erase(0, dot.size());
        const std::string word = rest.substr(0, rest.find(dot));
        rest.erase(0, word.size());
        if (word.starts_with(copy))
            result.copy = word.substr(copy.size());
        else
            result.turn += (result.turn.empty() ? "" : ", ") +
                           (word.starts_with(turned) ? word.substr(turned.size()) : word);
    }
    return result;
}

} // namespace

namespace {

Table panelTable(std::vector<std::vector<std::string>> rows, bool note) {
    return {"Panels",
            {{"", 6, Align::left, true},
             {"panel", 31},
             {"copy", 10},
             {"turned", 11},
             {"from left", 20, Align::right, true},
             {"from below", 20, Align::right, true}},
            true,
            std::move(rows),
            note ? "From the datum corner ⊕ of the sheet to the lower left of the panel's own box." : "",
            false};
}

/// Where the drawing and the tables go: the tables under the drawing on upright paper, beside it on level
/// paper.
struct SheetLayout {
    Area drawn;
    DrawingScale scale;
    std::vector<Area> tables;
};

SheetLayout layOut(const Page& sheet, const Area& whole, bool landscape, std::size_t rows,
                   const UnitStyle& units) {
    constexpr double sizesRoom = 11, between = 6;
    const double sheetWidth = std::max(1.0, sheet.width), sheetHeight = std::max(1.0, sheet.height);
    const double column = std::clamp(whole.width * 0.36, 92.0, 112.0);
    const double roomX = landscape ? whole.width - column - between : whole.width;
    const double roomY = landscape ? whole.height : 0.62 * whole.height;
    SheetLayout layout;
    layout.scale = niceScale(
        std::min((roomX - sizesRoom - 1) / sheetWidth, (roomY - sizesRoom - 1) / sheetHeight), units);
    const Vec2 size = Vec2(sheetWidth, sheetHeight) * layout.scale.factor;
    const double slack = roomX - sizesRoom - size.x();
    layout.drawn = {whole.x + sizesRoom + std::max(0.0, slack / 2), whole.top() - size.y() - 1, size.x(),
                    size.y()};
    if (landscape) {
        layout.tables = {{whole.right() - column, whole.y, column, whole.height}};
        return layout;
    }
    const double under = layout.drawn.y - sizesRoom - 5 - whole.y;
    constexpr std::size_t oneColumn = 16;
    if (rows <= oneColumn) {
        layout.tables = {{whole.x, whole.y, whole.width, under}};
    } else {
        const double half = (whole.width - between) / 2;
        layout.tables = {{whole.x, whole.y, half, under}, {whole.x + half + between, whole.y, half, under}};
    }
    return layout;
}

} // namespace

namespace {

Page framedPage(const Page& sheet, double width, double height) {
    Page page;
    page.name = sheet.name;
    page.width = width;
    page.height = height;
    page.overlay = {
        "frame", "frame", {{"frame", {}, {}, {}, {}}, {"tables", {}, {}, {}, {}}, {"words", {}, {}, {}, {}}}};
    return page;
}

using Rows = std::vector<std::vector<std::string>>;

/// In columns of like length where they hold all, else on from column to column.
/// @return rows without room
std::vector<Table> setPanels(const Pen& pen, const std::vector<Area>& areas, const Rows& rows) {
    const std::size_t half = areas.size() > 1 ? (rows.size() + 1) / 2 : rows.size();
    const auto middle = rows.begin() + static_cast<std::ptrdiff_t>(half);
    const Table first = panelTable({rows.begin(), middle}, true),
                second = panelTable({middle, rows.end()}, false);
    Layer scratch;
    if (!setTables(Pen(scratch), {areas.front()}, {first}).rest.empty())
        return setTables(pen, areas, {panelTable(rows, true)}).rest;
    std::vector<Table> rest = setTables(pen, {areas.front()}, {first}).rest;
    if (half < rows.size()) rest = setTables(pen, {areas.back()}, {second}).rest;
    return rest;
}

} // namespace

std::vector<Page> sheetPaperPages(const Page& sheet, const std::string& title, double width, double height,
                                  const UnitStyle& units) {
    Page page = framedPage(sheet, width, height);
    const Pen frame(page.overlay.layers[0]), tables(page.overlay.layers[1]);
    const std::string between = " · ";
    const std::size_t dot = sheet.name.find(between);
    const std::string rest = dot == std::string::npos ? "" : sheet.name.substr(dot + between.size());
    const auto parts = static_cast<std::size_t>(std::count_if(
        sheet.groups.begin(), sheet.groups.end(), [](const Group& group) { return group.id != "sheet"; }));
    const std::string count = std::to_string(parts) + (parts == 1 ? " panel" : " panels");
    // The scale is known only after the frame is; the corner words are set below.
    const Area whole = drawFrame(frame, page, {title, sheet.name.substr(0, dot), rest + between + count, ""},
                                 "OUTSIDE FACE UP unless said", unitsWords(units) + ".");
    const SheetLayout layout = layOut(sheet, whole, width > height, parts, units);
    frame.words({width - pageMargin, height - pageMargin - 2.6}, "drawn " + layout.scale.words,
                {3, Align::right, Ink::quiet});
    Rows rows;
    for (const Group& group : sheet.groups) {
        Group small = fitted(group, layout.scale.factor, {layout.drawn.x, layout.drawn.y});
        if (group.id != "sheet") {
            const Box2 box = outerBox(group);
            for (Layer& layer : small.layers)
                if (layer.name == "marks") layer = {"marks", {}, {}, {}, {}};
            const std::string label = std::to_string(rows.size() + 1);
            nameOn(small, label, page.overlay.layers[2]);
            const Placing lies = placing(group);
            rows.push_back(
                {label, group.id, lies.copy, lies.turn, size(box.min.x(), units), size(box.min.y(), units)});
        }
        page.groups.push_back(std::move(small));
    }
    dimension(frame, layout.drawn, sheet.height, sheet.width, units);
    std::vector<Table> left = setPanels(tables, layout.tables, rows);
    std::vector<Page> pages{std::move(page)};
    while (!left.empty()) {
        Page next = framedPage(sheet, width, height);
        const Area area =
            drawFrame(Pen(next.overlay.layers[0]), next, {title, sheet.name.substr(0, dot), "continued", ""},
                      "", unitsWords(units) + ".");
        left = setTables(Pen(next.overlay.layers[1]), {area}, left).rest;
        pages.push_back(std::move(next));
    }
    return pages;
}

} // namespace slab
