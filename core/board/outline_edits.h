#pragma once
// Outlines made and changed: points added, split in, deleted, mirrored; forms added, doubled and copied.
#include "core/board/board.h"
#include "core/document/edit.h"

namespace slab {

/// Splits an edge at the place on it that is nearest to `at`; the new point gets a fresh name, the side keeps
/// its name on both halves. A curve on that edge becomes two: arcs keep their circle; splines share their
/// points; ellipse arcs become splines through points of theirs. On taper forms base and top are split alike.
/// @param pointer  of the edge's first point, "/forms/0/outline/3"
/// @error "no-such-point", "no-edge"
[[nodiscard]] Expected<Edit> insertPoint(const Project& project, const Scope& scope, BoardView view,
                                         const std::string& pointer, const Vec2& at, double step = 0);
/// Splits an edge of a facet form at the place on it that is nearest to `at`; the new corner goes into every
/// face that has this edge, and lies on it, so that the faces stay flat.
/// @param ends  its two corners
/// @error "no-edge" (no facet form, or no face joins the two)
[[nodiscard]] Expected<Edit> insertCorner(const Project& project, const Scope& scope, BoardView view,
                                          const std::array<PointRef, 2>& ends, const Vec2& at);
/// Takes points out of outlines; curves and faces that use them go or close up. Corners of a taper form go
/// from base and top alike.
/// @error "too-few-points" when fewer than three would stay (four for a facet form), "no-such-point"
[[nodiscard]] Expected<Edit> deletePoints(const Project& project, const std::vector<PointRef>& refs);

/// The half of an outline on one side of y = 0 (plan outlines) is reflected and replaces the other half; its
/// formulas are kept with their sign turned. Points on the line stay.
/// @param keepPort  keep the half with y > 0
/// @error "no-such-point", "not-a-plan-outline", "nothing-to-mirror"
[[nodiscard]] Expected<Edit> makeSymmetric(const Project& project, const Scope& scope, int form,
                                           bool keepPort);
/// Chosen points reflected in a line of the view: across `axis` ("x" changes x) through `about` (mm, build
/// size).
[[nodiscard]] Expected<Edit> mirrorPoints(const Project& project, const Scope& scope, BoardView view,
                                          const std::vector<PointRef>& refs, int direction, double about);

/// A new form drawn in a view. Profile: at least three places in the side view, and its half-width; taper and
/// plate: in the plan (a plate also in side or front view, turned to stand in it); round: two places, from
/// base to far end, and a radius in `size`; facet: an outline in any view, given depth `size`.
struct NewForm {
    std::string kind = "profile"; ///< "profile", "taper", "plate", "round", "facet"
    std::string name;             ///< empty = a fresh one
    BoardView view = BoardView::side;
    std::vector<Vec2> places; ///< mm at build size, in the view
    double size = 0; ///< half-width, height, radius or depth, mm at build size; 0 = a sensible one: of
                     ///< a profile round donor and rider as much as they need
    double from = 0; ///< where it starts across the view (height of a taper's base …), mm at build size
    double step = 0;
};
/// @error "outline-short", "name-taken", "unknown-kind"
[[nodiscard]] Expected<Edit> addForm(const Project& project, const Scope& scope, const NewForm& wanted);
/// A copy with fresh names, moved by `delta` in the view; materials and joints that name its plates are
/// copied too.
[[nodiscard]] Expected<Edit> duplicateForm(const Project& project, const Scope& scope, BoardView view,
                                           int form, const Vec2& delta);
/// A name that no form (of the project) has yet: "hull 2".
[[nodiscard]] std::string freshFormName(const Project& project, const std::string& like);

} // namespace slab
