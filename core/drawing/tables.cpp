#include "core/drawing/tables.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

constexpr double titleRoom = 5.4, gap = 4.2, noteSize = 2.0, notePitch = 2.9;

struct Setting {
    double pitch = 4.6;
    [[nodiscard]] double size() const { return std::min(2.6, pitch * 0.66); }
    [[nodiscard]] double headRoom(const Table& table) const { return table.heads ? size() * 1.45 : 0; }
};

std::vector<std::string> noteLines(const Table& table, double width) {
    return wrapped(table.note, width, {noteSize, false, false});
}

double heightOf(const Table& table, double width, const Setting& setting) {
    return (table.title.empty() ? 1 : titleRoom) + setting.headRoom(table) +
           static_cast<double>(table.rows.size()) * setting.pitch +
           static_cast<double>(noteLines(table, width).size()) * notePitch + gap;
}

/// How many tables find room, in order.
std::size_t fitting(const std::vector<Area>& areas, const std::vector<const Table*>& tables,
                    const Setting& setting) {
    std::size_t at = 0;
    for (const Area& area : areas) {
        double left = area.height + gap;
        while (at < tables.size() && heightOf(*tables[at], area.width, setting) <= left)
            left -= heightOf(*tables[at++], area.width, setting);
    }
    return at;
}

class Setter {
public:
    Setter(const Pen& pen, const Setting& setting) : m_pen(&pen), m_setting(setting) {}

    /// How many rows fit between y and the area's floor, one line kept for telling of the others if there are
    /// any.
    [[nodiscard]] std::size_t roomFor(const Table& table, const Area& area, double y) const {
        const double fixed =
            heightOf({table.title, {}, table.heads, {}, table.note}, area.width, m_setting) - gap;
        const auto most =
            static_cast<std::size_t>(std::max(0.0, (y - area.y - fixed) / m_setting.pitch + 1e-9));
        return table.rows.size() <= most ? table.rows.size() : most > 0 ? most - 1 : 0;
    }
    /// Sets the first rows.
    /// @param last  said in a line after them; empty for none
    /// @return y below the table
    double set(const Table& table, std::size_t shown, const std::string& last, const Area& area,
               double y) const {
        y = setHead(table, area, y);
        const double numbers = numberSize(table, area);
        for (std::size_t r = 0; r < shown; ++r) {
            y -= m_setting.pitch;
            setRow(table, table.rows[r], area, y, numbers);
            m_pen->line({area.x, y}, {area.right(), y}, {0.08, Ink::pale});
        }
        if (!last.empty()) {
            y -= m_setting.pitch;
            m_pen->words({area.x, base(y)}, last, {m_setting.size(), Align::left, Ink::quiet});
        }
        for (const std::string& line : noteLines(table, area.width)) {
            y -= notePitch;
            m_pen->words({area.x, y}, line, {noteSize, Align::left, Ink::quiet});
        }
        return y - gap;
    }

private:
    [[nodiscard]] double base(double y) const { return y + m_setting.pitch / 2 - m_setting.size() / 2.8; }

    double setHead(const Table& table, const Area& area, double y) const {
        if (!table.title.empty()) {
            m_pen->words({area.x, y - 3}, table.title, {3, Align::left, Ink::line, true});
            y -= titleRoom - 0.9;
            m_pen->line({area.x, y}, {area.right(), y}, {0.25, Ink::line});
            y -= 0.9;
        }
        if (!table.heads) return y;
        y -= m_setting.headRoom(table);
        const double small = 0.82 * m_setting.size();
        forCells(table, area, [&](std::size_t c, double x, double width) {
            put(table.columns[c], elided(table.columns[c].title, width, {small, false, false}), x, width,
                y + 1, {small, Align::left, Ink::quiet});
        });
        return y;
    }
    /// One size for all numbers of a table: a number must be whole, so they are set smaller where a name is
    /// shortened.
    [[nodiscard]] double numberSize(const Table& table, const Area& area) const {
        double size = m_setting.size();
        forCells(table, area, [&](std::size_t c, double, double width) {
            if (!table.columns[c].figures) return;
            for (const auto& row : table.rows)
                if (c < row.size())
                    size = std::min(size,
                                    m_setting.size() * width /
                                        std::max(width, textWidth(row[c], {m_setting.size(), false, true})));
        });
        return size;
    }
    void setRow(const Table& table, const std::vector<std::string>& row, const Area& area, double y,
                double numbers) const {
        forCells(table, area, [&](std::size_t c, double x, double width) {
            if (c >= row.size()) return;
            const bool bold = !row[c].empty() && row[c].front() == '!', figures = table.columns[c].figures;
            WordStyle style{figures ? numbers : m_setting.size(), Align::left, Ink::line, bold, figures};
            const std::string text = bold ? row[c].substr(1) : row[c];
            // Somewhat smaller letters rather than fewer.
            constexpr double least = 0.8;
            if (!figures)
                style.height *= std::clamp(width / std::max(1e-6, textWidth(text, style.text())), least, 1.0);
            put(table.columns[c], figures ? text : elided(text, width, style.text()), x, width, base(y),
                style);
        });
    }
    /// Width of a column's widest text at full size.
    [[nodiscard]] double natural(const Table& table, std::size_t column) const {
        double widest = 0;
        if (table.heads)
            widest = textWidth(table.columns[column].title, {0.82 * m_setting.size(), false, false});
        for (const auto& row : table.rows) {
            if (column >= row.size()) continue;
            const bool bold = !row[column].empty() && row[column].front() == '!';
            widest = std::max(widest, textWidth(bold ? row[column].substr(1) : row[column],
                                                {m_setting.size(), bold, table.columns[column].figures}));
        }
        return widest;
    }
    /// By share; what some columns have to spare goes to those whose text would be shortened.
    [[nodiscard]] std::vector<double> widths(const Table& table, double room) const {
        double shares = 0;
        for (const TableColumn& column : table.columns) shares += column.share;
        std::vector<double> width, lack;
        double lacking = 0, spare = 0;
        for (std::size_t c = 0; c < table.columns.size(); ++c) {
            width.push_back(room * table.columns[c].share / shares);
            lack.push_back(natural(table, c) - width[c]);
            (lack[c] > 0 ? lacking : spare) += std::abs(lack[c]);
        }
        const double moved = std::min(lacking, spare);
        if (moved > 0)
            for (std::size_t c = 0; c < width.size(); ++c)
                width[c] += moved * lack[c] / (lack[c] > 0 ? lacking : spare);
        return width;
    }
    template <class Each>
    void forCells(const Table& table, const Area& area, const Each& each) const {
        constexpr double between = 2;
        const double room = area.width - between * (static_cast<double>(table.columns.size()) - 1);
        double x = area.x;
        const std::vector<double> width = widths(table, room);
        for (std::size_t c = 0; c < table.columns.size(); ++c) {
            each(c, x, width[c]);
            x += width[c] + between;
        }
    }
    void put(const TableColumn& column, const std::string& text, double x, double width, double y,
             WordStyle style) const {
        style.align = column.align;
        const double at = column.align == Align::left    ? x
                          : column.align == Align::right ? x + width
                                                         : x + width / 2;
        m_pen->words({at, y}, text, style);
    }

    const Pen* m_pen;
    Setting m_setting;
};

/// How close the rows are set so that all tables fit, or all that are not optional.
Setting settingFor(const std::vector<Area>& areas, const std::vector<const Table*>& all,
                   const std::vector<const Table*>& needed, bool& withOptional) {
    Setting setting;
    const std::vector<const Table*>* shown = &all;
    constexpr double closest = 3.0, closestWithOptional = 3.6, step = 0.2;
    while (fitting(areas, *shown, setting) < shown->size() && setting.pitch > closest + 1e-9) {
        setting.pitch -= step;
        if (setting.pitch < closestWithOptional) shown = &needed;
        if (setting.pitch < closestWithOptional && fitting(areas, needed, Setting{}) == needed.size()) {
            setting = Setting{};
            break;
        }
    }
    withOptional = shown == &all;
    return setting;
}

/// The rows from `first` on.
Table remainder(const Table& table, std::size_t first) {
    Table rest = table;
    rest.rows.erase(rest.rows.begin(), rest.rows.begin() + static_cast<std::ptrdiff_t>(first));
    constexpr std::string_view mark = ", continued";
    if (first > 0 && !rest.title.ends_with(mark)) rest.title += mark;
    return rest;
}

/// Lines that begin with an empty cell belong to the one above: of so many at most, as many as keep them
/// together. All, where one row takes more than an area.
std::size_t wholeRows(const Table& table, std::size_t most) {
    const auto goesOn = [&](std::size_t row) {
        return row < table.rows.size() && !table.rows[row].empty() && table.rows[row].front().empty();
    };
    std::size_t shown = most;
    while (shown > 0 && goesOn(shown)) --shown;
    return shown > 0 ? shown : most;
}

/// Tables one below the other, from area to area.
class Flow {
public:
    Flow(const Setter& setter, const Setting& setting, const std::vector<Area>& areas)
        : m_setter(setter), m_setting(setting), m_areas(areas), m_y(areas[0].top()) {}

    [[nodiscard]] double y() const { return m_y; }
    /// @return what found no room
    Table set(Table table) {
        constexpr std::size_t fewest = 2; // rows that are worth a table's head
        while (!fits(table, m_y - here().y)) {
            std::size_t shown = m_setter.roomFor(table, here(), m_y);
            if (last()) {
                const bool used = m_y < here().top() - 1e-9;
                if (used && shown < fewest) return table;
                shown = wholeRows(table, shown);
                put(table, shown, "continued on the next page");
                return remainder(table, shown);
            }
            // A table that the next area holds stays in one piece.
            shown = wholeRows(table, shown);
            if (shown >= fewest && !fits(table, m_areas[m_area + 1].height)) {
                put(table, shown, "");
                table = remainder(table, shown);
            }
            m_y = m_areas[++m_area].top();
        }
        put(table, table.rows.size(), "");
        return {};
    }

private:
    [[nodiscard]] const Area& here() const { return m_areas[m_area]; }
    [[nodiscard]] bool last() const { return m_area + 1 == m_areas.size(); }
    [[nodiscard]] bool fits(const Table& table, double height) const {
        return heightOf(table, here().width, m_setting) <= height + gap;
    }
    void put(const Table& table, std::size_t shown, const std::string& words) {
        m_y = m_setter.set(table, shown, words, here(), m_y);
    }

    const Setter& m_setter;
    const Setting& m_setting;
    const std::vector<Area>& m_areas;
    std::size_t m_area = 0;
    double m_y;
};

} // namespace

SetTables setTables(const Pen& pen, const std::vector<Area>& areas, const std::vector<Table>& tables) {
    SetTables result;
    if (areas.empty()) return {0, tables};
    std::vector<const Table*> all, needed;
    for (const Table& table : tables) {
        if (table.rows.empty()) continue;
        all.push_back(&table);
        if (!table.optional) needed.push_back(&table);
    }
    bool withOptional = true;
    const Setting setting = settingFor(areas, all, needed, withOptional);
    const Setter setter(pen, setting);
    Flow flow(setter, setting, areas);
    for (const Table* table : all) {
        if ((table->optional && !withOptional) || !result.rest.empty())
            result.rest.push_back(*table);
        else if (Table rest = flow.set(*table); !rest.rows.empty())
            result.rest.push_back(std::move(rest));
    }
    result.low = flow.y() + gap;
    return result;
}

} // namespace slab
