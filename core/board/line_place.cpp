// Where a dimension line is drawn beside its points.
#include "core/board/formula_text.h"
#include "core/board/measure.h"
#include "core/board/outline_parts.h"
#include <algorithm>

namespace slab {

namespace {

/// Offset of a line that runs through a place: from the points' box along an axis, else from the straight
/// line.
double offsetThrough(const DimensionLine& line, BoardView view, const std::array<Vec2, 2>& ends,
                     const Vec2& at) {
    const int flat = line.along == axisOf(view, 0) ? 0 : line.along == axisOf(view, 1) ? 1 : -1;
    if (flat < 0) {
        const Vec2 way = ends[1] - ends[0];
        return way.norm() > 1e-9 ? Vec2(-way.y(), way.x()).normalized().dot(at - ends[0])
                                 : at.y() - ends[0].y();
    }
    constexpr double least = 1; // mm: the sign says the side, so the line never lies on the points' box
    const int other = 1 - flat;
    const auto [low, high] = std::minmax(ends[0][other], ends[1][other]);
    if (at[other] >= (low + high) / 2) return std::max(at[other] - high, least);
    return std::min(at[other] - low, -least);
}

} // namespace

Expected<Edit> moveLine(const Project& project, const Scope& scope, int index, const Vec2& at, double step,
                        std::string gesture) {
    if (index < 0 || index >= static_cast<int>(project.lines.size()))
        return fail("no-such-place", "There is no such dimension line.", {}, "Choose the line again.");
    const DimensionLine& line = project.lines[static_cast<std::size_t>(index)];
    const auto view = parseView(line.view);
    const auto from = pointNamed(project, scope, line.from), to = pointNamed(project, scope, line.to);
    if (!view) return Unexpected(view.error());
    if (!from) return Unexpected(from.error());
    if (!to) return Unexpected(to.error());
    const double offset = offsetThrough(line, *view, {seen(*from, *view), seen(*to, *view)}, at);
    Edit edit;
    edit.label = "Move dimension line";
    edit.merge = std::move(gesture);
    edit.apply = [index,
                  text = detail::subjectText(offset, scope, step)](const Project& p) -> Expected<Project> {
        if (index >= static_cast<int>(p.lines.size()))
            return fail("no-such-place", "There is no such dimension line any more.");
        Project next = p;
        next.lines[static_cast<std::size_t>(index)].offset = text;
        return next;
    };
    return edit;
}

} // namespace slab
