#pragma once
// Panels larger than their sheet are split by straight cuts, square through both faces, and a butt strip
// joins the pieces from behind.
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

inline constexpr double usualStrip = 80; ///< mm: width of a butt strip, 40 on either side (common practice)

/// A seam that the builder placed, as figures.
struct SeamChoice {
    std::string plate;         ///< name or pattern
    double at = 0;             ///< mm from the middle of the panel's box along its longer side
    double turn = 0;           ///< radians from square to that side, counter-clockwise
    double strip = usualStrip; ///< mm; 0 = no strip
    std::string stripStock;    ///< empty = the plate's own
    std::string entry;         ///< JSON pointer of the document's entry, for findings
    bool operator==(const SeamChoice&) const = default;
};

/// One cut that was made.
struct SeamCut {
    std::string panel;               ///< as it was before
    std::vector<std::string> plates; ///< of each of its copies
    bool found = false;              ///< by the search, not by the builder
    double at = 0, turn = 0;         ///< like SeamChoice
    double length = 0;               ///< on the outside face, mm
    double clear = 0;                ///< to the nearest corner or opening, mm; 0 when it runs through one
    std::vector<std::pair<Vec2, Vec2>> lines; ///< on the outside face, coordinates of the panel
    std::vector<std::string> strips;          ///< butt strips behind it, all copies
    bool operator==(const SeamCut&) const = default;
};

struct SplitPanels {
    std::vector<Panel> panels; ///< pieces stand where their panel stood; butt strips last
    PlateList strips;          ///< one behind each seam of each copy, body axes
    std::vector<SeamCut> seams;
    std::vector<Finding> findings;
    bool operator==(const SplitPanels&) const = default;
};

/// Splits what no sheet of its stock holds: the fewest pieces, then clear of corners and openings by half the
/// strip, then the least sheet area. Seams that the builder placed are cut first, also through panels that
/// would fit. Copies are split alike, and the other hand mirrored unless it has seams of its own. Pieces are
/// named "hull/port/a", "hull/port/b" from the left or from below; their marks across a seam go on after
/// those of the plates. A piece keeps its panel's coordinates.
///
/// Blanks are not split: a finding. Kerf is the nester's concern, not this one's.
[[nodiscard]] SplitPanels splitPanels(std::vector<Panel> panels, const PlateSet& plates,
                                      const StockSet& stock, const std::vector<SeamChoice>& seams,
                                      const UnitStyle& units = {});

/// Reads the document's seams; a value that cannot be read takes its usual one, with a finding.
[[nodiscard]] std::vector<SeamChoice> resolveSeams(const Project& project, const Scope& scope,
                                                   std::vector<Finding>& findings);

} // namespace slab
