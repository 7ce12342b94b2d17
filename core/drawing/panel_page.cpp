#include "core/drawing/contact_ink.h"
#include "core/drawing/copy_table.h"
#include "core/drawing/corner_table.h"
#include "core/drawing/fold_ink.h"
#include "core/drawing/guide_ink.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_view.h"
#include "core/drawing/paper_frame.h"
#include "core/drawing/tables.h"
#include "core/drawing/tiles.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <utility>

namespace slab {
namespace {

Table factTable(const Panel& panel, const PanelDrawingOptions& options, const DrawingScale& scale) {
    Table table{"Panel", {{"", 23}, {"", 69}}, false, {}, "", false};
    const auto add = [&](const std::string& key, const std::string& value) {
        if (!value.empty()) table.rows.push_back({key, value});
    };
    const std::size_t copies = std::max<std::size_t>(panel.copyCount(), 1);
    add("Material", panel.stock);
    add("Thickness", options.nominal
                         ? "!" + thicknessWords(panel, true, options.units) + " – measure your sheet"
                         : thicknessWords(panel, false, options.units));
    std::string cut = std::to_string(copies);
    if (!rowsByCopy(edgeRows(panel)).empty())
        cut += ", each with marks of its own";
    else
        for (std::size_t i = 0; i < panel.plates.size() && copies > 1; ++i)
            cut += (i == 0 ? ": " : ", ") + panel.plates[i];
    add("Cut", cut);
    if (!panel.parts.empty() && copies == 1) {
        std::string plates;
        for (const std::string& plate : panel.plates) plates += (plates.empty() ? "" : ", ") + plate;
        add("Folds to", plates);
    }
    std::string hand = handWords(panel);
    const std::string other = panel.mirrorOf.empty() ? options.otherHand : panel.mirrorOf;
    if (!other.empty()) hand += (hand.empty() ? "" : "; ") + std::string("mirror of ") + other;
    add("Hand", hand);
    std::string faces = "Outside face";
    for (const std::string& line : options.facing) add(std::exchange(faces, "  "), line);
    std::string rests = "Rests";
    for (const std::string& line : restLines(panel)) add(std::exchange(rests, ""), line);
    const Vec2 outer = bounds(panel.boundary.outer).size();
    if (const auto circle = circleThrough(panel.boundary.outer))
        add("Round", "Ø " + size(2 * circle->second, options.units) + ", in " +
                         std::to_string(panel.boundary.outer.size()) + " facets");
    add("Overall", size(outer.x(), options.units) + " × " + size(outer.y(), options.units));
    Box2 blank = bounds(panel.boundary.outer);
    for (const Ring& ring : drawnRings(panel)) blank = united(blank, bounds(ring));
    if ((blank.size() - outer).norm() > 0.5)
        add("Blank", size(blank.size().x(), options.units) + " × " + size(blank.size().y(), options.units) +
                         ", inside face included");
    std::string diagonals;
    char letter = 'A';
    for (const auto& [a, b] : checkDiagonals(panel.boundary.outer)) {
        const double length = (panel.boundary.outer[static_cast<std::size_t>(a)] -
                               panel.boundary.outer[static_cast<std::size_t>(b)])
                                  .norm();
        diagonals += (diagonals.empty() ? "" : "   ") + std::string(1, letter) + "–" +
                     std::string(1, static_cast<char>(letter + 1)) + " " + size(length, options.units);
        letter = static_cast<char>(letter + 2);
    }
    add("Check square", diagonals);
    add("Drawn", scale.words + ", seen from outside");
    return table;
}

Table edgeTable(const std::vector<EdgeRow>& rows, bool anyTilt, const UnitStyle& units) {
    Table table{"Edges",
                {{"No", 9, Align::left, true},
                 {"meets", isInch(units) ? 30.0 : 33.0},
                 {"joint", 11},
                 {"from square", 15, Align::left, true},
                 {"length", isInch(units) ? 21.0 : 17.0, Align::right, true},
                 {"mark", 8, Align::right, true}},
                true,
                {},
                "Lengths on the outside face. Plates with like mark numbers meet.",
                false};
    if (!anyTilt) table.note = "All edges are cut square. " + table.note;
    if (std::any_of(rows.begin(), rows.end(), [](const EdgeRow& row) { return row.radius > 0; }))
        table.note += " R: these edges follow a circle of that radius.";
    if (std::any_of(rows.begin(), rows.end(), [](const EdgeRow& row) { return row.upTo; }))
        table.note += " ≤: short edges, none longer; their corners stand under Corners.";
    if (!rowsByCopy(rows).empty()) table.note += " ↓ The marks differ by copy.";
    for (const EdgeRow& row : rows) {
        const std::string tilt =
            row.sketch == 0 ? "0°" : std::string(1, row.sketch) + " " + printAngle(std::abs(row.bevel));
        std::string length = size(row.length, units);
        if (row.radius > 0)
            length = "R " + size(row.radius, units);
        else if (row.upTo)
            length = "≤ " + length;
        else if (row.last > row.first)
            length = std::to_string(row.last - row.first + 1) + "× " + length;
        std::string mark = row.marks.empty() ? markWords(row) : "↓";
        if (mark.empty()) mark = "–";
        table.rows.push_back({row.number, meetsWords(row), roleName(row.role), tilt, length, mark});
    }
    return table;
}

Table openingTable(const Panel& panel, const UnitStyle& units) {
    Table table{
        "Openings",
        {{"", 5},
         {"name", isInch(units) ? 27.0 : 31.0},
         {"size", isInch(units) ? 31.0 : 26.0, Align::right, true},
         {"from left", 16, Align::right, true},
         {"from below", 16, Align::right, true}},
        true,
        {},
        "From the corner ⊕ of the overall box to the lower left of the opening; round ones to their centre.",
        false};
    const std::vector<OpeningRow> rows = openingRows(panel);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const OpeningRow& row = rows[i];
        const std::string words = row.round ? "Ø " + size(row.diameter, units)
                                            : size(row.size.x(), units) + " × " + size(row.size.y(), units);
        table.rows.push_back(
            {openingLetter(i), row.name, words, size(row.at.x(), units), size(row.at.y(), units)});
        const bool told = panel.holes[i].opening.empty() && !panel.holes[i].edges.empty(); // edge by edge
        if (std::abs(row.wall) >= squareWithin && !told)
            table.rows.push_back({"", "walls " + printAngle(std::abs(row.wall))});
    }
    return table;
}

std::vector<Table> tablesOf(const Panel& panel, const PanelDrawingOptions& options, const DrawingScale& scale,
                            const std::vector<EdgeRow>& rows, bool anyTilt) {
    std::vector<Table> tables = {factTable(panel, options, scale), edgeTable(rows, anyTilt, options.units)};
    for (Table& copies : copyTables(panel, rows)) tables.push_back(std::move(copies));
    tables.push_back(contactTable(panel, options.units));
    tables.push_back(foldTable(panel, options.units));
    tables.push_back(openingTable(panel, options.units));
    tables.push_back(guideTable(panel, options.units));
    for (Table& corners : cornerTables(panel, options.units)) tables.push_back(std::move(corners));
    return tables;
}

struct Layout {
    Area view, bevels;
    std::vector<Area> columns;
};

/// Landscape: the view left, tables in one column at the right. Portrait: tables in two columns under the
/// view.
Layout layOut(const Area& body, std::size_t kinds) {
    constexpr double between = 6;
    Layout layout;
    if (body.width > body.height) {
        const double column = std::clamp(body.width * 0.34, 84.0, 104.0);
        const double left = body.width - column - between;
        const double strip = bevelsHeight(kinds, left);
        layout.view = {body.x, body.y + strip, left, body.height - strip};
        layout.bevels = {body.x, body.y, left, strip};
        layout.columns = {{body.right() - column, body.y, column, body.height}};
        return layout;
    }
    const double strip = bevelsHeight(kinds, body.width);
    const double tables = std::min(0.42 * body.height, 110.0), half = (body.width - between) / 2;
    layout.columns = {{body.x, body.y, half, tables}, {body.x + half + between, body.y, half, tables}};
    layout.bevels = {body.x, body.y + tables + 3, body.width, strip};
    layout.view = {body.x, body.y + tables + 3 + strip, body.width, body.height - tables - 3 - strip};
    return layout;
}

Head headOf(const Panel& panel, const PanelDrawingOptions& options, bool first) {
    std::string subject = std::to_string(std::max<std::size_t>(panel.copyCount(), 1)) + " to cut";
    if (const std::string hand = handWords(panel); !hand.empty()) subject += " · " + hand;
    const std::string corner =
        options.count > 0 ? "panel " + std::to_string(options.number) + " of " + std::to_string(options.count)
                          : "";
    return {options.title, panel.name, first ? subject : "continued", corner};
}

Page blankPage(const Panel& panel, const PanelDrawingOptions& options) {
    Page page;
    page.name = panel.name;
    page.width = options.width;
    page.height = options.height;
    page.overlay = {"frame",
                    "frame",
                    {{"frame", {}, {}, {}, {}}, {"tables", {}, {}, {}, {}}, {"bevels", {}, {}, {}, {}}}};
    return page;
}

/// A page of tables alone. @param tables  in: what is to be told; out: what is still left
Page furtherPage(const Panel& panel, const PanelDrawingOptions& options, std::vector<Table>& tables) {
    Page page = blankPage(panel, options);
    page.name += ", continued";
    const Area body = drawFrame(Pen(page.overlay.layers[0]), page, headOf(panel, options, false), "",
                                unitsWords(options.units) + ".");
    for (Table& table : tables) table.optional = false; // its turn has come
    constexpr double between = 6, narrowest = 84;
    const double count = std::max(1.0, std::floor((body.width + between) / (narrowest + between)));
    const double width = (body.width - between * (count - 1)) / count;
    std::vector<Area> columns;
    for (int i = 0; i < static_cast<int>(count); ++i)
        columns.push_back({body.x + i * (width + between), body.y, width, body.height});
    tables = setTables(Pen(page.overlay.layers[1]), columns, tables).rest;
    return page;
}

} // namespace

std::vector<Page> panelPages(const Panel& panel, const PanelDrawingOptions& chosen) {
    PanelDrawingOptions options = chosen;
    options.units = pageUnits(panel, chosen.units);
    Page page = blankPage(panel, options);
    const Pen frame(page.overlay.layers[0]), tables(page.overlay.layers[1]), bevels(page.overlay.layers[2]);
    const Area body = drawFrame(frame, page, headOf(panel, options, true), "",
                                unitsWords(options.units) + ". Measure nothing off this drawing.");
    drawLegend(frame, {pageMargin, pageMargin + 1});
    std::vector<EdgeRow> rows = edgeRows(panel);
    const std::vector<BevelKind> kinds = bevelKinds(rows);
    const Layout layout = layOut(body, kinds.size());
    PanelView view = drawView(panel, layout.view, rows, options);
    drawBevels(bevels, layout.bevels, kinds, options.tint);
    std::vector<Table> told = tablesOf(panel, options, view.scale, rows, !kinds.empty());
    if (view.together)
        told[1].note += " Where numbers stand as a range on the drawing, edges follow each other "
                        "counter-clockwise.";
    std::vector<Table> rest = setTables(tables, layout.columns, told).rest;
    page.groups = {std::move(view.group), std::move(view.notes)};
    std::vector<Page> pages = {std::move(page)};
    while (!rest.empty()) pages.push_back(furtherPage(panel, options, rest));
    if (pages.size() > 1)
        for (Page& each : pages) each.chapter = panel.name;
    return pages;
}

} // namespace slab
