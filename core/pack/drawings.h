#pragma once
// What the build pack and the window print alike.
#include "core/drawing/sheets.h"
#include "core/evaluate/evaluate.h"
#include <optional>

namespace slab {

/// The paper that drawings are printed on: the project's own, or for rolls Letter (inch styles) or A4;
/// landscape.
[[nodiscard]] Paper drawingPaper(const Project& project, const UnitStyle& units);
/// The project's template paper. @error "unknown-paper"
[[nodiscard]] Expected<Paper> templatePaper(const Project& project);

/// Options for panel `index` of the evaluation: its number, stock state, tint and other hand.
/// Where the arrow points on each copy, in their order: a copy may lie turned, so that what points up on the
/// first one points down on that. Empty where all copies agree.
[[nodiscard]] std::vector<std::string> arrowsOf(const Evaluation& evaluation,
                                                const std::vector<Panel>& panels, const Panel& panel);
[[nodiscard]] PanelDrawingOptions panelOptions(const Project& project, const Evaluation& evaluation,
                                               std::size_t index);
[[nodiscard]] TemplateOptions templateOptions(const Project& project, const Evaluation& evaluation,
                                              const Panel& panel, const Paper& paper);

/// Which templates, on what.
struct TemplateWish {
    Paper paper;
    double border = 10, overlap = 10;               ///< mm
    std::optional<std::vector<std::string>> panels; ///< names; nothing = every panel
};
/// Calibration page, then the wished panels true size, in the panels' own order.
[[nodiscard]] Drawing templateDrawing(const Project& project, const Evaluation& evaluation,
                                      const TemplateWish& wish, const Job& job = {});
/// Calibration page, then every panel true size, gathered under the panel's name. Stopped jobs give fewer
/// pages.
[[nodiscard]] Drawing templateDrawing(const Project& project, const Evaluation& evaluation,
                                      const Paper& paper, const Job& job = {});
/// One dimensioned page a panel.
[[nodiscard]] Drawing panelDrawing(const Project& project, const Evaluation& evaluation);
/// One fitted page a sheet.
[[nodiscard]] Drawing sheetDrawing(const Project& project, const Evaluation& evaluation);
/// Cut list of the cleats, the bars that they are sawn from, and their sections true size; no pages without
/// cleats.
[[nodiscard]] Drawing cleatDrawing(const Project& project, const Evaluation& evaluation);
/// The order in which frames are put together, as a table and step by step in pictures; no pages where
/// no two boards lap.
[[nodiscard]] Drawing frameDrawing(const Project& project, const Evaluation& evaluation);
/// Sheet layouts at 1:1.
[[nodiscard]] std::vector<Page> sheetPages(const Evaluation& evaluation);
/// One panel true size on a page of its own, 10 mm clear all round: group coordinates are the panel's own.
[[nodiscard]] Page panelSvgPage(const Panel& panel, Ink tint);

} // namespace slab
