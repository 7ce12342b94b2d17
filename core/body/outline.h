#pragma once
// Outlines as figures: points, names, arcs replaced by facets, and what is wrong with them.
#include "core/base/finding.h"
#include "core/body/curve_path.h"
#include "core/geometry/polygon.h"
#include <string>
#include <vector>

namespace slab {

/// A corner of an outline at build size; `side` names the edge from here to the next corner.
struct Corner {
    std::string name, side;
    Vec2 at = Vec2::Zero();
    double half = 0; ///< half-width, profile only
    bool operator==(const Corner&) const = default;
};
using Corners = std::vector<Corner>;

/// A curve over one outline edge: a circle arc in equal facets, or a path with its breaks.
struct Arc {
    std::size_t edge = 0; ///< from corner `edge` to the next
    double bulge = 0;     ///< circle: sagitta, mm, positive to the outside of the outline
    int facets = 1;
    CurvePath path{};             ///< empty for a circle arc
    std::vector<double> breaks{}; ///< parameters of the facets' corners, ends included
    std::vector<double> halves{}; ///< half-widths at the inner breaks; empty = straight along the chord
    bool operator==(const Arc&) const = default;
};

[[nodiscard]] Ring ringOf(const Corners& corners);

/// Facets that keep the chord error of an arc (chord c, sagitta s, mm) within `tolerance` mm; at least 1.
/// @source  R = c²/8s + s/2, sagitta of one facet R (1 − cos(φ/2n)), φ = 4 atan(2s/c): textbook circle
/// geometry
[[nodiscard]] int facetsFor(double chord, double bulge, double tolerance);

/// Points on the arc between its ends, at equal angles; `outward` is the unit normal of the chord to the
/// outside.
[[nodiscard]] std::vector<Vec2> arcPoints(const Vec2& from, const Vec2& to, const Vec2& outward, double bulge,
                                          int facets);

/// Greatest distance of an arc in equal facets from its chords, mm: R (1 − cos(φ / 2n)).
[[nodiscard]] double deviationOf(double chord, double bulge, int facets);

/// Counter-clockwise outline (the direction of `ring`'s area is looked up, not changed) with its curves
/// replaced by facets named "side~1", "side~2", …; half-widths run straight along the chord.
[[nodiscard]] Corners withArcs(const Corners& corners, const std::vector<Arc>& arcs);

/// Turned counter-clockwise; sides keep their edges.
[[nodiscard]] Corners counterClockwise(Corners corners);

/// What stops an outline from being built; empty message = fine. Codes "outline-short",
/// "outline-point-twice", "outline-spike", "outline-crosses", "form-flat".
struct OutlineTrouble {
    std::string code, message, remedy;
    std::size_t corner = 0;
};
[[nodiscard]] OutlineTrouble troubleOf(const Corners& corners);

/// All corners lie on one line or in one place.
[[nodiscard]] bool isCollapsed(const Corners& corners);
/// Neighbouring corners in one place taken together.
[[nodiscard]] Corners withoutDoubles(const Corners& corners);

} // namespace slab
