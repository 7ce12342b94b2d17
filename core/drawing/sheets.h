#pragma once
#include "core/drawing/drawing.h"
#include "core/nesting/nest.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// Panel as drawn at the bench, true size in its own coordinates: group id = panel name, layers outer (solid
/// 0.5 mm), inner (dashed), marks, and folds (dash-dot) of a blank. Coordinates of "outer" and "inner" are
/// the panel's own points, unchanged.
[[nodiscard]] Group panelGroup(const Panel& panel, Ink tint);
[[nodiscard]] Ink tintFor(const std::string& stockKind);

struct PanelDrawingOptions {
    UnitStyle units;
    double width = 297, height = 210; ///< page, mm
    std::string title;                ///< project title
    bool nominal = false;             ///< stock not measured: said on the drawing
    int number = 0, count = 0;        ///< "panel 7 of 35"
    std::string otherHand;            ///< name of the panel that is this one's other hand; empty if none
    Ink tint = Ink::foam;
    std::vector<std::string> facing{}; ///< where the outside face looks: "to the front"; a line for each copy
                                       ///< where they differ; empty = out of the body
    std::vector<std::string> arrows{}; ///< "up", "down" …: where the arrow points on each copy, where they
                                       ///< differ; empty = as the panel says
};
/// Dimensioned panel drawing: sizes, diagonals, neighbour and joint and tilt from square at each edge, end-on
/// bevel sketches. The view and the tables fitted to one page; tables without room there go on to further
/// ones.
[[nodiscard]] std::vector<Page> panelPages(const Panel& panel, const PanelDrawingOptions& options);

/// One sheet with its panels, at 1:1 in mm (screen, SVG) …
[[nodiscard]] Page sheetPage(const NestProblem& problem, const NestLayout& layout,
                             const std::vector<Panel>& panels, const StockSet& stock, int number);
/// … or fitted to a paper page with a table, which goes on to further pages where it is long.
[[nodiscard]] std::vector<Page> sheetPaperPages(const Page& sheet, const std::string& title, double width,
                                                double height, const UnitStyle& units);

struct Paper {
    std::string name;
    double width = 210, height = 297; ///< mm; roll: height 0 = as long as needed
    bool operator==(const Paper&) const = default;
};
/// Letter, A4, A3, Tabloid (ISO 216; 8.5 × 11 and 11 × 17 in), "roll 24 in", "roll 36 in", "roll 914 mm".
[[nodiscard]] Expected<Paper> paperNamed(const std::string& name);
[[nodiscard]] std::vector<std::string> paperNames();

/// Border and overlap where nobody says otherwise: 10 mm, in inch styles 3/8 in. @return mm
[[nodiscard]] constexpr double usualMargin(const UnitStyle& units) {
    return isInch(units) ? 9.525 : 10;
}
struct TemplateOptions {
    Paper paper;
    double border = 10, overlap = 10; ///< mm
    UnitStyle units;
    std::string title;
    bool nominal = false;
    int copy = 1;
    std::vector<std::string> facing{}; ///< as of PanelDrawingOptions
    std::vector<std::string> arrows{}; ///< as of PanelDrawingOptions
};
/// Pages needed along one side: 1 if size <= printable, else ceil((size - overlap) / (printable - overlap)).
[[nodiscard]] int tileCount(double size, double printable, double overlap);
/// One panel true size over as many pages as it needs, whichever way round needs fewer.
[[nodiscard]] std::vector<Page> templatePages(const Panel& panel, const TemplateOptions& options);
/// One page with calibration bars in both axes: print it first, measure it.
[[nodiscard]] Page calibrationPage(const TemplateOptions& options);

} // namespace slab
