#include "core/drawing/copy_table.h"
#include <algorithm>

namespace slab {
namespace {

constexpr std::size_t mostEdges = 8;
constexpr double markRoom = 7.5, pitch = 4.6, heads = 14, foot = 7; // mm

double nameRoom(const Panel& panel) {
    double room = 20;
    for (const PanelCopy& copy : panel.copies)
        room = std::max(room, textWidth("88  " + copy.plate, {2.6, false, false}) + 1);
    return room;
}

} // namespace

std::vector<Table> copyTables(const Panel& panel, const std::vector<EdgeRow>& rows) {
    const std::vector<EdgeRow> told = rowsByCopy(rows);
    std::vector<Table> tables;
    for (std::size_t from = 0; from < told.size(); from += mostEdges) {
        const std::size_t to = std::min(told.size(), from + mostEdges);
        Table table;
        table.title = from == 0 ? "Copies: mark at each edge" : "";
        table.columns.push_back({"copy and plate", nameRoom(panel)});
        for (std::size_t e = from; e < to; ++e)
            table.columns.push_back({told[e].number, markRoom, Align::right, true});
        for (std::size_t c = 0; c < panel.copies.size(); ++c) {
            std::vector<std::string> row{std::to_string(c + 1) + "  " + panel.copies[c].plate};
            for (std::size_t e = from; e < to; ++e)
                row.push_back(told[e].marks[c] > 0 ? std::to_string(told[e].marks[c]) : "–");
            table.rows.push_back(std::move(row));
        }
        tables.push_back(std::move(table));
    }
    if (!tables.empty()) tables.back().note = "Write each plate's own marks on its edges; like numbers meet.";
    return tables;
}

Vec2 copyTableSize(const Panel& panel, const std::vector<Table>& tables) {
    if (tables.empty()) return Vec2::Zero();
    double height = 0;
    for (const Table& table : tables) height += heads + pitch * static_cast<double>(table.rows.size());
    return {nameRoom(panel) + static_cast<double>(tables.front().columns.size() - 1) * (markRoom + 2),
            height + foot};
}

} // namespace slab
