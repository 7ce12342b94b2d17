#pragma once
// Distances between points, and dimension lines that drive what they measure.
#include "core/board/board.h"
#include "core/document/edit.h"
#include "core/lines/lines.h"

namespace slab {

/// Between two places seen in a view, mm at build size and radians.
struct MeasuredWay {
    double distance = 0, right = 0, up = 0; ///< right, up: from first to second, with sign
    double angle = 0;                       ///< of the line from level, in (-π, π]
    bool operator==(const MeasuredWay&) const = default;
};
[[nodiscard]] MeasuredWay measure(const Vec2& from, const Vec2& to);
/// Angle at `corner` between two places, in [0, π].
[[nodiscard]] double angleAt(const Vec2& from, const Vec2& corner, const Vec2& to);
/// In words and the builder's units: "4′ 2″ at 14.5°; 4′ 0-1/2″ along, 1′ 0″ up (subject 10′ 5″)".
[[nodiscard]] std::string inWords(const MeasuredWay& measured, double scale, const UnitStyle& units);

/// The driven dimension is given the value at which the line measures `typed` (a formula; its lengths are
/// the subject's, as in the form's own fields, unless "build(…)" says otherwise).
/// @error what evaluate() says of `typed`; "not-driven"; "does-not-reach" when the dimension does not change
/// the
///        distance, or cannot bring it there
[[nodiscard]] Expected<Edit> driveLine(const Project& project, int line, const Text& typed);
/// A new named dimension of the distance as it is; the second point's coordinate along the line's axis
/// becomes the first one's plus the dimension, so that nothing moves now. The line drives it from then on.
/// @error "no-such-point", "needs-axis" (the line has no axis and is not level or plumb), "bad-name",
///        "duplicate-name", "not-movable"
[[nodiscard]] Expected<Edit> makeDriving(const Project& project, const Scope& scope, int line,
                                         const std::string& name);
/// A dimension line between two points. `along` "" = true distance, else "x", "y", "z".
[[nodiscard]] Edit addLine(const Project& project, BoardView view, const PointRef& from, const PointRef& to,
                           const std::string& along);
/// Draws a dimension line through a place of its view: only its offset changes.
/// @param at    mm at build size
/// @param step  mm at build size to which the offset is rounded; 0 = exact
/// @error "no-such-place", "no-such-point", "broken-formula"
[[nodiscard]] Expected<Edit> moveLine(const Project& project, const Scope& scope, int line, const Vec2& at,
                                      double step = 0, std::string gesture = {});

} // namespace slab
