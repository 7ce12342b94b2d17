#pragma once
// Plain ruled tables that flow down one or more columns of a page.
#include "core/drawing/pen.h"

namespace slab {

struct TableColumn {
    std::string title;
    double share = 1; ///< of the table's width, relative to the others
    Align align = Align::left;
    bool figures = false;
};
struct Table {
    std::string title;
    std::vector<TableColumn> columns;
    bool heads = true;                          ///< column titles shown
    std::vector<std::vector<std::string>> rows; ///< a cell that starts with '!' is set bold, without the mark
    std::string note;                           ///< small print under it
    bool optional = false;                      ///< goes first when there is no room
};

struct SetTables {
    double low = 0;          ///< lowest y used in the last area
    std::vector<Table> rest; ///< what found no room
};
/// Sets tables one below the other, on into the next area when one is full. Rows are set closer when they
/// would not fit. Long cells are elided.
/// Where the last area is full a line says that the rest, which the caller sets elsewhere, follows. Lines
/// that begin with an empty cell stay with the one above.
[[nodiscard]] SetTables setTables(const Pen& pen, const std::vector<Area>& areas,
                                  const std::vector<Table>& tables);

} // namespace slab
