#pragma once
// Where the elevations lie on the drafting sheet, what lies under the pointer, and the lines of projection.
#include "core/board/board.h"

namespace slab {

/// The side elevation's origin is the sheet's; the front stands to its right at the same height, the plan
/// below it at the same length.
struct BoardSheet {
    std::array<Vec2, 3> origin{Vec2::Zero(), Vec2::Zero(), Vec2::Zero()}; ///< of each view on the sheet, mm
    std::array<Box2, 3> area;                                             ///< of each view on the sheet
    Vec2 corner =
        Vec2::Zero(); ///< through it runs the 45° line that carries widths from the plan to the front
    [[nodiscard]] Vec2 toSheet(BoardView view, const Vec2& at) const {
        return origin[static_cast<std::size_t>(view)] + at;
    }
    [[nodiscard]] Vec2 toView(BoardView view, const Vec2& sheet) const {
        return sheet - origin[static_cast<std::size_t>(view)];
    }
    bool operator==(const BoardSheet&) const = default;
};
/// @param gap  between the elevations, mm at build size
[[nodiscard]] BoardSheet layOut(const BoardScene& scene, double gap);
/// The view whose area is nearest to a place on the sheet.
[[nodiscard]] BoardView viewAt(const BoardSheet& sheet, const Vec2& at);

/// A line of projection on the sheet.
struct ProjectionLine {
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    bool operator==(const ProjectionLine&) const = default;
};
/// From a place in body axes: side–front at its height, side–plan at its length, plan–front round the 45°
/// line.
[[nodiscard]] std::vector<ProjectionLine> projectionLines(const BoardSheet& sheet, const Vec3& place);

/// What lies nearest to a place: points before edges before dimension lines; of equals the first drawn.
struct Picked {
    enum class What { nothing, point, edge, dimension, shape } what = What::nothing;
    int index = -1; ///< in the list of that kind of the elevation
    double distance = 0;
    Vec2 at = Vec2::Zero(); ///< nearest place on it
    bool operator==(const Picked&) const = default;
};
/// @param reach  mm at build size; regions (donor, rider, openings) are picked from inside when nothing else
/// is near
[[nodiscard]] Picked nearest(const BoardElevation& view, const Vec2& at, double reach,
                             bool withMirrored = false);
/// All editable handles of the same kind and form that are seen in the same place as one, itself included:
/// the corners of a house that lie behind each other are dragged together.
[[nodiscard]] std::vector<int> together(const BoardElevation& view, int point);
/// Editable points inside a box drawn on the view.
[[nodiscard]] std::vector<PointRef> inside(const BoardElevation& view, const Box2& box);

} // namespace slab
