#pragma once
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <string_view>
#include <vector>

namespace slab {

/// Part of an ellipse as affine maps leave it one: point(t) = centre + a cos t + b sin t.
struct SvgArc {
    Vec2 centre = Vec2::Zero();
    Vec2 a = Vec2::Zero(), b = Vec2::Zero(); ///< conjugate half diameters
    double start = 0, sweep = 0;             ///< radians; |sweep| ≤ 2π
    [[nodiscard]] Vec2 at(double t) const;
};

/// One piece of a path, from where the piece before it ends.
struct SvgSegment {
    enum class Kind { line, cubic, arc };
    Kind kind = Kind::line;
    Vec2 to = Vec2::Zero();
    Vec2 c1 = Vec2::Zero(), c2 = Vec2::Zero(); ///< cubic
    SvgArc arc;
};

struct SvgSubpath {
    Vec2 start = Vec2::Zero();
    std::vector<SvgSegment> segments;
    bool closed = false; ///< ended by Z; its last side back to `start` is not among the segments
};

/// A path's data ("d") in its own units, y down. Quadratic curves come as the cubics that they are.
///
/// An arc with a radius of 0 is a line, one of no length is left out, radii too small are enlarged.
/// @error "svg-path" with `where` = "letter N"
/// @source  W3C SVG 1.1 (2nd ed. 2011) 8.3 and the grammar in 8.3.9, SVG 2 9.3; arcs by appendix F.6 (SVG 2:
/// B.2)
[[nodiscard]] Expected<std::vector<SvgSubpath>> readSvgPath(std::string_view d);

/// Arc between two points by radii, turn of the ellipse's x axis (radians) and the two flags.
/// @return an arc from `from` to `to`; a and b are zero where it is to be a line
/// @source  SVG 1.1 F.6.5 (equations F.6.5.1 to F.6.5.6) and F.6.6
struct SvgArcFlags {
    double rx = 0, ry = 0, turn = 0;
    bool large = false, clockwise = false; ///< clockwise as drawn, y down: the sweep flag
};
[[nodiscard]] SvgArc arcBetween(const Vec2& from, const Vec2& to, const SvgArcFlags& flags);

/// The same outline moved by an affine map (2 × 3 in the upper rows).
[[nodiscard]] SvgSubpath moved(SvgSubpath path, const Mat3& by);

} // namespace slab
