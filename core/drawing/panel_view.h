#pragma once
// The fitted, dimensioned view of a panel: outlines, numbered edges, overall sizes, diagonals, openings.
#include "core/drawing/panel_facts.h"
#include "core/drawing/pen.h"

namespace slab {

/// A drawing scale that a person would choose: 1:1, 1:2, 1:2.5, 1:5, 1:10 … (inch styles 1:2, 1:4, 1:8, 1:12
/// …).
struct DrawingScale {
    double factor = 1; ///< paper / true
    std::string words; ///< "1:10"
    bool operator==(const DrawingScale&) const = default;
};
/// The largest such scale that is no larger than `most`.
[[nodiscard]] DrawingScale niceScale(double most, const UnitStyle& units);

struct PanelView {
    Group group; ///< id = panel name; layers outer, inner, marks
    Group notes; ///< numbers, sizes, diagonals
    DrawingScale scale;
    bool together = false; ///< a number on it stands for several rows of the edge table
};
[[nodiscard]] PanelView drawView(const Panel& panel, const Area& region, const std::vector<EdgeRow>& rows,
                                 const PanelDrawingOptions& options);

/// End-on sketches of the tilts, in rows, from the top of `area`. @return rows × height used
double drawBevels(const Pen& pen, const Area& area, const std::vector<BevelKind>& kinds, Ink tint);
/// Edge names in short: "1, 2, 5–8, P1–P4".
[[nodiscard]] std::string runsOf(const std::vector<std::string>& names);
[[nodiscard]] double bevelsHeight(std::size_t kinds, double width);

} // namespace slab
