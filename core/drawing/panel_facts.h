#pragma once
// What a panel drawing says in words and numbers, before it is laid out.
#include "core/drawing/sheets.h"

namespace slab {

/// One line of the edge table: an edge, or a run of like edges (a faceted curve). Edges of a hole that a form
/// cuts are numbered by the hole's letter: "P2".
struct EdgeRow {
    std::string number; ///< "3" or "7–30", counted from 1
    int first = 0, last = 0;
    std::string neighbour;
    EdgeRole role = EdgeRole::cut;
    double bevel = 0;  ///< from square, radians, positive when the outside face is the long one
    double length = 0; ///< of one edge, mm
    int mark = 0;
    char sketch = 0;        ///< letter of its bevel sketch; 0 = square
    int hole = -1;          ///< index of the hole; -1 = boundary
    bool differs = false;   ///< the copies meet different plates here: `neighbour` is the first one's
    std::vector<int> marks; ///< one for each copy of a panel that is cut more than once
    double radius = 0;      ///< of a run along a circle (see arcsOf), mm; 0 otherwise
    bool upTo = false;      ///< a run of short edges that differ: `length` is that of the longest
    bool operator==(const EdgeRow&) const = default;
};
/// Tilts under this count as square: 0.05°, a fortieth of what a knife holds (±2°, common practice).
inline constexpr double squareWithin = 0.05 * 3.14159265358979323846 / 180;

/// Edges of the boundary, then those of holes that forms cut. Neighbouring edges that are alike (neighbour,
/// role, mark, tilt, length within 0.05 mm or on one circle) make a run when there are more than 16 edges in
/// their loop; so do three and more that meet nothing and are no longer than 25 mm each, whatever their
/// lengths: their corners are told in a table of their own. Sketch letters are set.
[[nodiscard]] std::vector<EdgeRow> edgeRows(const Panel& panel);
/// The loop that a row's edges belong to.
[[nodiscard]] const PanelLoop& loopOf(const Panel& panel, const EdgeRow& row);
/// Rows whose marks are told copy by copy; empty for a panel that is cut once.
[[nodiscard]] std::vector<EdgeRow> rowsByCopy(const std::vector<EdgeRow>& rows);

/// Letter of an opening on the drawing and in its table: P, Q, R …
[[nodiscard]] std::string openingLetter(std::size_t index);
/// Its name; "for pump house" for a hole that a form cuts.
[[nodiscard]] std::string openingName(const PanelLoop& hole);

/// One end-on sketch: a tilt and the edges that have it.
struct BevelKind {
    char letter = 'a';
    double tilt = 0; ///< signed like EdgeRow::bevel
    double leastTilt = 0, mostTilt = 0;
    std::vector<std::string> edges;
    bool operator==(const BevelKind&) const = default;
};
/// Distinct tilts to 0.1°; when there are more than `most`, near ones are put together (least and most say
/// so).
[[nodiscard]] std::vector<BevelKind> bevelKinds(std::vector<EdgeRow>& rows, std::size_t most = 10);

/// Corner pairs whose distances check squareness: the corners nearest to the four corners of the overall box,
/// joined crosswise, as long as they are no side of the outline. None on a triangle: its sides fix it.
[[nodiscard]] std::vector<std::pair<int, int>> checkDiagonals(const Ring& outline);

struct OpeningRow {
    std::string name;
    bool round = false;
    double diameter = 0;      ///< round
    Vec2 size = Vec2::Zero(); ///< of its box otherwise
    Vec2 at = Vec2::Zero();   ///< round: centre; else lower left of its box; from the datum corner
    double wall = 0;          ///< greatest tilt of its walls, radians
    bool operator==(const OpeningRow&) const = default;
};
/// Openings measured from the lower left of the overall box of the outer outline.
[[nodiscard]] std::vector<OpeningRow> openingRows(const Panel& panel);
/// Centre and radius of a ring whose points lie on a circle within 0.05 mm (12 points or more).
[[nodiscard]] std::optional<std::pair<Vec2, double>> circleThrough(const Ring& ring);

/// "left (port)", "right (starboard)", or empty when the panel has no hand.
[[nodiscard]] std::string handWords(const Panel& panel);
/// "12.7 mm, measured", or "NOMINAL 12.7 mm".
[[nodiscard]] std::string thicknessWords(const Panel& panel, bool nominal, const UnitStyle& units);
/// Where the panel's arrow points: "up", "forward" …
[[nodiscard]] std::string upWords(const Panel& panel);
/// Behind them: "; this face to the front", "; copies face different ways" or nothing.
/// "arrow points up"; where copies differ "arrow points up (copy 1), down (copies 2, 4)".
[[nodiscard]] std::string arrowWords(const Panel& panel, const std::vector<std::string>& arrows);
[[nodiscard]] std::string facingNote(const std::vector<std::string>& facing);
/// "meets" column: neighbour's name, "see copies" where they differ, a dash for none.
[[nodiscard]] std::string meetsWords(const EdgeRow& row);
/// "12", or "12–40" for a run; empty without a mark.
[[nodiscard]] std::string markWords(const EdgeRow& row);
/// A length on a drawing. Metric ones go without their unit: the foot of the page names it (unitsWords).
[[nodiscard]] std::string size(double mm, const UnitStyle& units);
/// The style of all lengths on a panel's pages. Where another sheet goes into slots of it, the fit depends on
/// them: metric ones get one digit more, inches are told in thousandths ("13.2", "0.520″"), all over the page
/// alike.
[[nodiscard]] UnitStyle pageUnits(const Panel& panel, const UnitStyle& units);
/// Is edge `i` of a counter-clockwise outline the bottom of a slot: both its corners turn inward, its
/// walls run against each other, and it is no longer than 60 mm? Another sheet goes in there, so its width
/// counts to a tenth of a millimetre.
[[nodiscard]] bool slotBottom(const Ring& outline, std::size_t i);
[[nodiscard]] std::string unitsWords(const UnitStyle& units);

} // namespace slab
