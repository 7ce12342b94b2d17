// The cut list of the cleats, the bars that they are sawn from, and their sections true size.
#include "core/drawing/paper_frame.h"
#include "core/drawing/tables.h"
#include "core/pack/drawings.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double cellGap = 9, cellWords = 14; // mm between sections, and under each for its words

/// Lines of the cut list with one cross-section.
struct SectionKind {
    const CleatLine* line = nullptr;
    std::string letter;
};

bool alike(const CleatLine& a, const CleatLine& b) {
    return std::abs(a.width - b.width) < 0.05 && std::abs(a.depth - b.depth) < 0.05 &&
           std::abs(a.angle - b.angle) < 0.001 && a.stock == b.stock;
}

/// A, B … Z, AA, AB …
std::string letterOf(std::size_t index) {
    std::string letters(1, static_cast<char>('A' + index % 26));
    return index < 26 ? letters : letterOf(index / 26 - 1) + letters;
}

std::vector<SectionKind> kindsOf(const CleatSet& cleats) {
    std::vector<SectionKind> kinds;
    for (const CleatLine& line : cleats.lines)
        if (std::none_of(kinds.begin(), kinds.end(),
                         [&](const SectionKind& k) { return alike(*k.line, line); }))
            kinds.push_back({&line, letterOf(kinds.size())});
    return kinds;
}

std::string barWords(const CleatLine& line, const UnitStyle& units) {
    return printThickness(line.width, units) + " × " + printThickness(line.depth, units) +
           (line.stock.empty() ? "" : " of " + line.stock);
}

std::vector<std::vector<std::string>> cutRows(const CleatSet& cleats, const UnitStyle& units) {
    const std::vector<SectionKind> kinds = kindsOf(cleats);
    std::vector<std::vector<std::string>> rows;
    for (const CleatLine& line : cleats.lines) {
        const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                       [&](const SectionKind& k) { return alike(*k.line, line); });
        rows.push_back({std::to_string(line.count), printLength(line.length, units), kind->letter,
                        barWords(line, units), line.rule, line.a, line.b,
                        line.mark > 0 ? std::to_string(line.mark) : "–",
                        line.pitch > 0 ? printLength(line.pitch, units) : ""});
    }
    return rows;
}

std::vector<std::vector<std::string>> barRows(const Totals& totals, const UnitStyle& units) {
    std::vector<std::vector<std::string>> rows;
    for (const BarLine& line : totals.timber)
        for (std::size_t i = 0; i < line.bars.size(); ++i)
            rows.push_back({std::to_string(i + 1),
                            printThickness(line.width, units) + " × " + printThickness(line.depth, units),
                            printLength(line.barLength, units), piecesOf(line.bars[i], units),
                            printLength(line.bars[i].left, units)});
    return rows;
}

class CleatBook {
public:
    CleatBook(const Project& project, const Evaluation& e)
        : m_project(project), m_e(e), m_paper(drawingPaper(project, e.units)) {}

    Drawing make() {
        const std::vector<TableColumn> cut{{"pieces", 9, Align::right, true},
                                           {"length", 16, Align::right, true},
                                           {"section", 9},
                                           {"bar", 28},
                                           {"rule", 24},
                                           {"width lies on", 48},
                                           {"depth lies on", 48},
                                           {"joint", 9, Align::right, true},
                                           {"every", 15, Align::right, true}};
        const std::vector<TableColumn> bars{{"bar", 8, Align::right, true},
                                            {"section", 26},
                                            {"as sold", 18, Align::right, true},
                                            {"pieces, longest first", 130},
                                            {"left", 18, Align::right, true}};
        tablePages("Cleats", cut, cutRows(*m_e.cleats, m_e.units));
        tablePages("Timber", bars, barRows(m_e.totals, m_e.units));
        sectionPages();
        addCautions(m_out.pages.front());
        return std::move(m_out);
    }

private:
    /// @return what of a new page is free
    Area newPage(const std::string& title, const std::string& subject) {
        Page page;
        page.name = title;
        page.width = m_paper.width;
        page.height = m_paper.height;
        page.overlay.layers.push_back({});
        m_out.title = m_project.title + " – cleats";
        m_out.pages.push_back(std::move(page));
        return drawFrame(pen(), m_out.pages.back(), {m_project.title, title, subject, {}},
                         "Saw and plane long bars before cutting them to length, with guard and push stick; "
                         "follow the tool's manual and local rules.",
                         "");
    }
    Pen pen() { return Pen(m_out.pages.back().overlay.layers.front()); }

    void tablePages(const std::string& title, const std::vector<TableColumn>& columns,
                    const std::vector<std::vector<std::string>>& rows) {
        if (rows.empty()) return;
        bool first = true;
        for (std::vector<Table> rest{{"", columns, true, rows, "", false}}; !rest.empty(); first = false) {
            const Area area = newPage(title, first ? "" : "continued");
            rest = setTables(pen(), {area}, rest).rest;
        }
    }

    void sectionPages() {
        Area area;
        double x = 0, y = 0, row = 0;
        bool open = false;
        for (const SectionKind& kind : kindsOf(*m_e.cleats)) {
            const Ring outline = kind.line->section.outline;
            const Box2 box = bounds(outline);
            const double width = std::max(box.size().x(), 34.0), height = box.size().y() + cellWords;
            if (open && x + width > area.right()) {
                x = area.x;
                y -= row + cellGap;
                row = 0;
            }
            if (!open || y - height < area.y) {
                area = newPage("Sections", "true size, seen along the joint; the level dotted line is the "
                                           "plate that the width lies on");
                x = area.x;
                y = area.top() - 6;
                row = 0;
                open = true;
            }
            drawSection(kind, Vec2(x - box.min.x(), y - box.size().y()));
            x += width + cellGap;
            row = std::max(row, height);
        }
    }
    /// @param corner  where the two plates meet on paper
    void drawSection(const SectionKind& kind, const Vec2& corner) {
        const CleatLine& line = *kind.line;
        Ring ring = line.section.outline;
        for (Vec2& p : ring) p += corner;
        pen().fill(ring, Ink::plywood);
        pen().path(ring, true, {0.35, Ink::line});
        const Vec2 b(std::cos(line.angle), std::sin(line.angle));
        pen().line(corner, corner + Vec2(line.section.onA + 4, 0), {0.25, Ink::quiet, Dash::dotted});
        pen().line(corner, corner + b * (line.section.onB + 4), {0.25, Ink::quiet, Dash::dotted});
        const double left = bounds(ring).min.x();
        pen().words({left, corner.y() - 5}, kind.letter + "   " + printAngle(line.angle),
                    {3, Align::left, Ink::line, true});
        pen().words({left, corner.y() - 8.6}, barWords(line, m_e.units), {2.3});
        pen().words({left, corner.y() - 11.8},
                    line.section.planed == 0   ? "as it is"
                    : line.section.planed == 1 ? "one face planed"
                                               : "two faces planed",
                    {2.3, Align::left, Ink::quiet});
    }

    const Project& m_project;
    const Evaluation& m_e;
    Paper m_paper;
    Drawing m_out;
};

} // namespace

Drawing cleatDrawing(const Project& project, const Evaluation& evaluation) {
    if (!evaluation.cleats || evaluation.cleats->lines.empty()) return {project.title + " – cleats", {}};
    return CleatBook(project, evaluation).make();
}

} // namespace slab
