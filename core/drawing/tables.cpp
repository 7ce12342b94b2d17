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

    /// @return y below the table
    double set(const Table& table, const Area& area, double y) const {
        const double floor = area.y + static_cast<double>(noteLines(table, area.width).size()) * notePitch;
        y = setHead(table, area, y);
        const double room = std::max(0.0, y - floor);
        const auto most = static_cast<std::size_t>(room / m_setting.pitch + 1e-9);
        const bool all = table.rows.size() <= most;
        const std::size_t shown = all ? table.rows.size() : most > 0 ? most - 1 : 0;
        const double numbers = numberSize(table, area);
        for (std::size_t r = 0; r < shown; ++r) {
            y -= m_setting.pitch;
            setRow(table, table.rows[r], area, y, numbers);
            m_pen->line({area.x, y}, {area.right(), y}, {0.08, Ink::pale});
        }
        if (!all) {
            y -= m_setting.pitch;
            m_pen->words({area.x, base(y)},
                         "and " + std::to_string(table.rows.size() - shown) + " more: see report.json",
                         {m_setting.size(), Align::left, Ink::quiet});
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

} // namespace

double setTables(const Pen& pen, const std::vector<Area>& areas, const std::vector<Table>& tables) {
    if (areas.empty()) return 0;
    std::vector<const Table*> all, needed;
    for (const Table& table : tables) {
        if (table.rows.empty()) continue;
        all.push_back(&table);
        if (!table.optional) needed.push_back(&table);
    }
    Setting setting;
    std::vector<const Table*>* shown = &all;
    constexpr double closest = 3.0, closestWithOptional = 3.6, step = 0.2;
    while (fitting(areas, *shown, setting) < shown->size() && setting.pitch > closest + 1e-9) {
        setting.pitch -= step;
        if (setting.pitch < closestWithOptional) shown = &needed;
        if (setting.pitch < closestWithOptional && fitting(areas, needed, Setting{}) == needed.size()) {
            setting = Setting{};
            break;
        }
    }
    const Setter setter(pen, setting);
    std::size_t area = 0;
    double y = areas[0].top();
    for (const Table* table : *shown) {
        const bool fits = heightOf(*table, areas[area].width, setting) <= y - areas[area].y + gap;
        if (!fits && area + 1 < areas.size()) y = areas[++area].top();
        y = setter.set(*table, areas[area], y);
    }
    return y + gap;
}

} // namespace slab
