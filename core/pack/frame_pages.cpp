// How the frames go together: the order as a table, and a picture for each step.
#include "core/drawing/paper_frame.h"
#include "core/drawing/tables.h"
#include "core/frames/way_words.h"
#include "core/pack/back_to_front.h"
#include "core/pack/drawings.h"
#include "core/pack/eye.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr int across = 3, down = 2;                ///< pictures on a page
constexpr double between = 6;                      ///< mm from picture to picture
constexpr double titleHeight = 9, linePitch = 2.9; ///< mm, of the words under a picture
constexpr double ontoWidth = 84;                   ///< mm: longer lists take another row of the table

/// A board as a flat figure, some way from its place.
FlatFigure figureOf(const Plate& plate, std::size_t board, const Vec3& away) {
    FlatFigure figure{board, plate.frame, {plate.boundary.outer, {}}};
    figure.frame.origin += away;
    for (const PanelLoop& hole : plate.holes)
        figure.area.holes.push_back(signedArea(hole.outer) > 0 ? reversed(hole.outer) : hole.outer);
    return figure;
}

/// Is an edge of a part of a figure one of the figure's own, and not a cut? Material lies on its left.
bool isOwnEdge(const Polygon& whole, const Vec2& from, const Vec2& to) {
    constexpr double beside = 0.01; // mm
    const Vec2 way = (to - from).normalized();
    return !contains(whole, (from + to) / 2 + beside * Vec2(way.y(), -way.x()));
}

class FrameBook {
public:
    FrameBook(const Project& project, const Evaluation& e)
        : m_project(project), m_e(e), m_paper(drawingPaper(project, e.units)) {
        if (!e.plates) return;
        for (const FrameStep& step : e.frames->order)
            for (const Plate& plate : e.plates->plates)
                if (plate.name == step.board) m_boards.push_back(&plate);
        std::vector<Vec3> normals;
        for (const Plate* board : m_boards) normals.emplace_back(board->frame.axes.col(2));
        m_eye = eyeFor(normals);
        measure();
    }

    Drawing make() {
        m_out.title = m_project.title + " – frames";
        if (m_boards.size() < 2 || m_boards.size() != m_e.frames->order.size()) return std::move(m_out);
        tablePages();
        picturePages();
        addCautions(m_out.pages.front());
        return std::move(m_out);
    }

private:
    /// All that any picture shows, so that all have one scale.
    void measure() {
        std::vector<Vec2> home;
        for (const Plate* plate : m_boards)
            for (const Vec3& p : plate->solid.vertices) home.push_back(m_eye.seen(p));
        if (home.empty()) return;
        m_whole = bounds(home);
        const Box2 all = m_whole;
        m_lift = 0.45 * std::max(all.size().x(), all.size().y());
        for (std::size_t i = 1; i < m_boards.size(); ++i) {
            const Vec2 off = m_lift * m_eye.seen(step(i).from);
            m_whole = united(m_whole, {all.min + off, all.max + off});
        }
    }
    Area newPage(const std::string& title, const std::string& subject) {
        Page page;
        page.name = title;
        page.width = m_paper.width;
        page.height = m_paper.height;
        page.overlay.layers.push_back({});
        m_out.pages.push_back(std::move(page));
        return drawFrame(
            pen(), m_out.pages.back(), {m_project.title, title, subject, {}},
            "Try them together dry before you glue. Front, back, port (left) and starboard (right) "
            "are the body's.",
            "");
    }
    Pen pen() { return Pen(m_out.pages.back().overlay.layers.back()); }
    [[nodiscard]] const FrameStep& step(std::size_t i) const { return m_e.frames->order[i]; }

    /// Its drawings' numbers in panels.pdf: "11", or "11, 12" where a seam cuts it.
    [[nodiscard]] std::string drawingsOf(const std::string& board) const {
        std::string numbers;
        for (std::size_t i = 0; m_e.panels && i < m_e.panels->size(); ++i)
            if ((*m_e.panels)[i].isOf(board))
                numbers += (numbers.empty() ? "" : ", ") + std::to_string(i + 1);
        return numbers.empty() ? "–" : numbers;
    }
    /// "rib#2 (mark 31)".
    [[nodiscard]] std::string marked(const Plate& own, const std::string& other) const {
        std::string marks;
        const auto look = [&](const PanelLoop& loop) {
            for (const PanelEdge& e : loop.edges)
                if (e.neighbour == other && e.mark > 0)
                    marks += (marks.empty() ? "" : ", ") + std::to_string(e.mark);
        };
        look(own.boundary);
        for (const PanelLoop& hole : own.holes) look(hole);
        return shortBoard(other) + (marks.empty() ? "" : " (mark " + marks + ")");
    }
    [[nodiscard]] std::string ontoWords(std::size_t i) const {
        std::string words;
        for (const std::string& other : step(i).onto)
            words += (words.empty() ? "" : ", ") + marked(*m_boards[i], other);
        return words.empty() ? (i == 0 ? "stands first" : "none yet: hold it at its place") : words;
    }
    [[nodiscard]] std::string fromWords(std::size_t i) const {
        return i == 0 ? "–" : "from " + sideWords(step(i).from);
    }

    void tablePages() {
        Table table{"",
                    {{"step", 8, Align::right, true},
                     {"board", 40},
                     {"panel", 10, Align::right, true},
                     {"size", 34, Align::right, true},
                     {"goes straight in", 54},
                     {"onto", ontoWidth},
                     {"outside face looks", 44}},
                    true,
                    {},
                    note(),
                    false};
        for (std::size_t i = 0; i < m_boards.size(); ++i) {
            const Vec2 size = bounds(m_boards[i]->boundary.outer).size();
            const auto onto = wrapped(ontoWords(i), ontoWidth, {2.6, false, false});
            table.rows.push_back({std::to_string(i + 1), "!" + shortBoard(step(i).board),
                                  drawingsOf(step(i).board),
                                  printLength(size.x(), m_e.units) + " × " + printLength(size.y(), m_e.units),
                                  fromWords(i), onto.front(), facingWords(m_boards[i]->frame.axes.col(2))});
            for (std::size_t line = 1; line < onto.size(); ++line)
                table.rows.push_back({"", "", "", "", "", onto[line]});
        }
        for (std::vector<Table> rest{std::move(table)}; !rest.empty();) {
            const Area area =
                newPage("Frames", m_out.pages.empty() ? "in this order, one by one" : "continued");
            rest = setTables(pen(), {area}, rest).rest;
        }
    }
    [[nodiscard]] std::string note() const {
        std::string words =
            "“panel” is the number in panels.pdf; like marks meet. Do it where each way in is "
            "free: outside of the shell, or while that side of it is open.";
        for (const FrameCrossing& c : m_e.frames->crossings)
            if (!c.through.empty())
                return words + " Where a board is cut through beside a lap, glue corner blocks.";
        return words;
    }

    void picturePages() {
        Area area;
        for (std::size_t i = 0; i < m_boards.size(); ++i) {
            const int cell = static_cast<int>(i % (across * down));
            if (cell == 0)
                area = newPage("Frames, step by step",
                               "seen from the front, port side and above: the front is at the lower left");
            const double width = (area.width - (across - 1) * between) / across,
                         height = (area.height - (down - 1) * between) / down;
            if (i == 0)
                for (std::size_t k = 0; k < m_boards.size(); ++k)
                    m_lines = std::max(m_lines, wayLines(k, width).size());
            picture(i, {area.x + (cell % across) * (width + between),
                        area.top() - height - (cell / across) * (height + between), width, height});
        }
    }
    /// What stands in thin lines, the new board filled, beside its place on its way in.
    void picture(std::size_t i, const Area& area) {
        pen().box(area, {0.15, Ink::pale});
        const double words = titleHeight + static_cast<double>(m_lines) * linePitch;
        const Area room{area.x + 3, area.y + words, area.width - 6, area.height - words - 3};
        const double scale = std::min(room.width / m_whole.size().x(), room.height / m_whole.size().y());
        const Vec2 centre(room.x + room.width / 2, room.y + room.height / 2);
        const auto map = [&](const Vec2& p) -> Vec2 {
            return centre + scale * (p - (m_whole.min + m_whole.max) / 2);
        };
        const Vec3 away = (i == 0 ? 0 : m_lift) * step(i).from;
        std::vector<FlatFigure> figures;
        for (std::size_t k = 0; k <= i; ++k)
            figures.push_back(figureOf(*m_boards[k], k, k == i ? away : Vec3::Zero()));
        for (const FlatFigure& part : backToFront(figures, m_eye.to))
            paint(part, figures[part.board].area, part.board == i, map);
        m_out.pages.back().overlay.layers.push_back({});
        if (i > 0) arrow(i, away, map);
        setWords(i, area);
    }
    /// On a layer of its own, over what it hides.
    template <class Map>
    void paint(const FlatFigure& part, const Polygon& whole, bool isNew, const Map& map) {
        m_out.pages.back().overlay.layers.push_back({});
        const auto drawn = [&](const Vec2& p) -> Vec2 { return map(m_eye.seen(part.frame.toBody(p))); };
        Fill fill{{}, isNew ? Ink::plywood : Ink::paper, false};
        const auto add = [&](const Ring& ring) {
            Ring out;
            for (std::size_t k = 0; k < ring.size(); ++k) {
                const Vec2 &from = ring[k], &to = ring[(k + 1) % ring.size()];
                out.push_back(drawn(from));
                // A cut closes over in the fill's own ink.
                const LineStyle style = !isOwnEdge(whole, from, to) ? LineStyle{0.1, fill.ink}
                                        : isNew                     ? LineStyle{0.4, Ink::line}
                                                                    : LineStyle{0.18, Ink::quiet};
                pen().line(drawn(from), drawn(to), style);
            }
            return out;
        };
        fill.area.outer = add(part.area.outer);
        for (const Ring& hole : part.area.holes) fill.area.holes.push_back(add(hole));
        if (signedArea(fill.area.outer) < 0) { // seen from its back
            fill.area.outer = reversed(fill.area.outer);
            for (Ring& hole : fill.area.holes) hole = reversed(hole);
        }
        pen().layer().fills.push_back(std::move(fill));
    }
    template <class Map>
    void arrow(std::size_t i, const Vec3& away, const Map& map) {
        const Plate& board = *m_boards[i];
        const Box2 box = bounds(board.boundary.outer);
        const Vec3 middle = board.frame.toBody(Vec2((box.min + box.max) / 2));
        pen().arrow(map(m_eye.seen(middle + 0.75 * away)), map(m_eye.seen(middle + 0.25 * away)), 2.6,
                    {0.4, Ink::chosen});
    }
    /// What is said under a picture, line by line.
    [[nodiscard]] std::vector<std::string> wayLines(std::size_t i, double width) const {
        const std::string way = i == 0                 ? "stands first"
                                : step(i).onto.empty() ? fromWords(i) + ", held at its place"
                                                       : fromWords(i) + ", onto " + ontoWords(i);
        return wrapped(way, width - 6, {2.3, false, false});
    }
    void setWords(std::size_t i, const Area& area) {
        double y = area.y + static_cast<double>(m_lines) * linePitch + 3.2;
        const std::string number = std::to_string(i + 1);
        pen().words({area.x + 3, y}, number, {4.4, Align::left, Ink::line, true});
        const double x = area.x + 5 + textWidth(number, {4.4, true, false}), width = area.right() - x - 2;
        pen().words({x, y}, elided(shortBoard(step(i).board), width, {3.2, true, false}),
                    {3.2, Align::left, Ink::line, true});
        y -= 0.7;
        for (const std::string& line : wayLines(i, area.width))
            pen().words({area.x + 3, y -= linePitch}, line, {2.3, Align::left, Ink::quiet});
    }

    const Project& m_project;
    const Evaluation& m_e;
    Paper m_paper;
    std::vector<const Plate*> m_boards; ///< in the order of the steps
    Eye m_eye;                          ///< one for all pictures
    Box2 m_whole;                       ///< of all boards as seen, at their places and on their ways
    double m_lift = 0;                  ///< how far from its place a board is drawn, mm
    std::size_t m_lines = 1;            ///< of words under a picture, at most
    Drawing m_out;
};

} // namespace

Drawing frameDrawing(const Project& project, const Evaluation& evaluation) {
    if (!evaluation.frames || evaluation.frames->crossings.empty()) return {project.title + " – frames", {}};
    return FrameBook(project, evaluation).make();
}

} // namespace slab
