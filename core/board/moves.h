#pragma once
// Gestures on points as edits. Formulas are kept: only their trailing length changes.
#include "core/board/board.h"
#include "core/document/edit.h"

namespace slab {

/// As a step: not rounded to round figures, but written no longer than it takes to be within 0.005 mm.
inline constexpr double readable = -1;

struct MoveOptions {
    double step = 0; ///< mm on the board to which new lengths are rounded, in round figures of their unit; 0
                     ///< = exact; or readable
    bool exactRight = false, exactUp = false; ///< in this direction only readable (it snapped to something)
    bool mirror = false; ///< formulas are taken off a length, so that what they rise by now lowers the place
    bool drive = false;  ///< a coordinate that is just the name of a dimension changes the dimension's value
    std::string gesture; ///< all moves with the same key are one step
};

/// Step for figures at a zoom: a round figure of the unit of at least `mmPerPixel`. Metric 1, 2, 5 × 10^n mm
/// from 0.1; inches 1/16, 1/8, 1/4, 1/2, 1, 3, 6, 12, 36, 120 …
[[nodiscard]] double roundStep(double mmPerPixel, Unit unit);

/// Points moved together by `delta` (mm at build size, as seen in the view) from where they stand in
/// `project`. The edit sets their fields, so a drag may make every edit from the document as it was when the
/// drag began.
///
/// A point goes as far as its fields allow in this view; a field that several points share is changed once.
/// @error "no-such-point", "not-movable" (no field moves it in this view), "broken-formula" (its formula has
/// no value)
[[nodiscard]] Expected<Edit> movePoints(const Project& project, const Scope& scope, BoardView view,
                                        const std::vector<PointRef>& refs, const Vec2& delta,
                                        const MoveOptions& options = {});
/// One point to a place in the view.
[[nodiscard]] Expected<Edit> movePoint(const Project& project, const Scope& scope, BoardView view,
                                       const PointRef& ref, const Vec2& to, const MoveOptions& options = {});
/// Both ends of the edge that starts at a point; `square`: only square to itself, as seen in the view.
[[nodiscard]] Expected<Edit> moveEdge(const Project& project, const Scope& scope, BoardView view,
                                      const std::string& pointer, Vec2 delta, bool square,
                                      const MoveOptions& options = {});
/// The same of any two points, such as the ends of a facet form's edge.
[[nodiscard]] Expected<Edit> moveEdge(const Project& project, const Scope& scope, BoardView view,
                                      const std::array<PointRef, 2>& ends, Vec2 delta, bool square,
                                      const MoveOptions& options = {});
/// The whole form by its placement.
[[nodiscard]] Expected<Edit> moveForm(const Project& project, const Scope& scope, BoardView view, int form,
                                      const Vec2& delta, const MoveOptions& options = {});

/// A formula whose value is `change` greater at build size.
///
/// A literal becomes a new literal in the scope's unit; a trailing "+ 0.88 m" or "- 0.88 m" is changed in its
/// own unit and dropped when it becomes nothing; anything else gets a term added.
/// @param step  0 = exact; readable; else mm at build size
/// @error what evaluate() says of `text`; "broken-formula" if no term can be added
[[nodiscard]] Expected<Text> shiftedLength(const Text& text, double change, const Scope& scope, Space space,
                                           double step = 0);
/// The same for a mirrored place: a formula is taken off the length that keeps the sum of both places, so
/// that what it rises by lowers the place from then on. Without names it is shiftedLength().
/// @param step  0 = exact, or readable
[[nodiscard]] Expected<Text> mirroredLength(const Text& text, double change, const Scope& scope, Space space,
                                            double step = 0);

} // namespace slab
