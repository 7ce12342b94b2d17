#pragma once
// How a true-size drawing is cut into pages.
#include "core/drawing/sheets.h"

namespace slab {

/// A grid of equal pages over a drawing. Neighbouring tiles share a band of `overlap`. Column 0 is at the
/// left, row 0 at the bottom of the drawing; names count rows from the top ("A1" is the upper left tile).
struct TilePlan {
    double pageWidth = 0, pageHeight = 0, border = 0, overlap = 0; ///< mm
    int columns = 1, rows = 1;
    Vec2 origin = Vec2::Zero(); ///< lower left of tile (0, 0)'s printable area, in drawing coordinates
    std::vector<bool> printed;  ///< by row × columns + column: something is drawn there
    [[nodiscard]] Vec2 printable() const { return {pageWidth - 2 * border, pageHeight - 2 * border}; }
    [[nodiscard]] Vec2 pitch() const { return printable() - Vec2(overlap, overlap); }
    [[nodiscard]] Vec2 corner(int column, int row) const;
    [[nodiscard]] bool isPrinted(int column, int row) const;
    [[nodiscard]] int printedCount() const;
    [[nodiscard]] std::string tileName(int column, int row) const;
    /// Centre of the overlap to the left of column `column` and below row `row` (also at the outer sides).
    [[nodiscard]] Vec2 registerPoint(int column, int row) const;
};

/// Rings of a panel that get drawn: both faces, openings and grooves too; a fold line as a ring of two
/// points.
[[nodiscard]] std::vector<Ring> drawnRings(const Panel& panel);
/// The part of a segment inside a box; nothing when it misses or only touches it.
[[nodiscard]] std::optional<std::pair<Vec2, Vec2>> partInside(const Vec2& a, const Vec2& b,
                                                              const Vec2& boxMin, const Vec2& boxMax);
/// Length of the segment inside the box, mm.
[[nodiscard]] double lengthInside(const Vec2& a, const Vec2& b, const Vec2& boxMin, const Vec2& boxMax);
/// The grid that prints fewest pages, upright or across; of equal ones on rolls the shortest length of paper.
[[nodiscard]] TilePlan planTiles(const std::vector<Ring>& rings, const TemplateOptions& options);
/// The pages of one panel's templates: what is cut, and the corners of what stands on it (a ruler joins them
/// over pages that are not printed). No pages for a panel without outline.
[[nodiscard]] TilePlan templatePlan(const Panel& panel, const TemplateOptions& options);

} // namespace slab
