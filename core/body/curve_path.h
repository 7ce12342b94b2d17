#pragma once
// Curved edges of outlines as paths, and the facets that follow them.
#include "core/base/error.h"
#include "core/geometry/polygon.h"
#include <array>
#include <vector>

namespace slab {

/// One stretch over s in [0, 1]. With `turn`: k0 + k1 cos a + k2 sin a, a = from + s turn (circle, ellipse);
/// without: k0 + k1 s + k2 s² + k3 s³.
struct PathPiece {
    std::array<Vec2, 4> k{Vec2::Zero(), Vec2::Zero(), Vec2::Zero(), Vec2::Zero()};
    double from = 0, turn = 0;
    bool operator==(const PathPiece&) const = default;
};
/// Stretches that follow each other; parameter t in [0, pieces], piece number floor(t).
using CurvePath = std::vector<PathPiece>;

[[nodiscard]] Vec2 pointAt(const CurvePath& path, double t);
[[nodiscard]] inline double endOf(const CurvePath& path) {
    return static_cast<double>(path.size());
}

/// Circle arc of a sagitta over a chord; `outward` is the chord's unit normal.
[[nodiscard]] CurvePath arcPath(const Vec2& from, const Vec2& to, const Vec2& outward, double bulge);

/// Arc of an ellipse: the affine image of a circle arc over the angle `sweep`, whose tangents at the two ends
/// meet in `meet`. With sweep = π/2 and a right angle there it is a quarter of an ellipse with its axes along
/// the sides.
/// @error "curve-ellipse" if the three points lie on one line or sweep is outside (0, π)
[[nodiscard]] Expected<CurvePath> ellipsePath(const Vec2& from, const Vec2& to, const Vec2& meet,
                                              double sweep);

/// Interpolating cubic spline with continuous curvature and straight ends (natural), centripetal parameters.
/// @source  de Boor, "A Practical Guide to Splines" (natural cubic interpolation); Lee, "Choosing nodes in
///          parametric curve interpolation", 1989 (centripetal)
/// @error "curve-spline" if two neighbouring points lie in one place
[[nodiscard]] Expected<CurvePath> splinePath(const std::vector<Vec2>& points);
/// Values at the knots, run through by the same kind of spline over the same parameters; t as in the path.
[[nodiscard]] double splineValue(const std::vector<Vec2>& points, const std::vector<double>& values,
                                 double t);

/// The path under the similarity that takes its ends to `from` and `to`.
[[nodiscard]] CurvePath fitted(const CurvePath& path, const Vec2& from, const Vec2& to);

/// Greatest distance of the path between two parameters from the chord between them, mm.
[[nodiscard]] double deviationOf(const CurvePath& path, double from, double to);
/// Greatest deviation of all chords of rising parameters.
[[nodiscard]] double deviationOf(const CurvePath& path, const std::vector<double>& breaks);

/// Parameters of count + 1 corners, ends included, on the path with the least greatest deviation.
///
/// Chord errors are made equal, which is least for a path without inflection. Where that is not so, up to 32
/// facets are searched over all choices of 192 places or more, then ever finer about the best of them: within
/// half a percent of the least. Never worse than equal steps of the parameter or of length.
[[nodiscard]] std::vector<double> bestBreaks(const CurvePath& path, int count);
/// Fewest facets that keep to a tolerance, mm; up to `most`, then empty.
[[nodiscard]] std::vector<double> breaksWithin(const CurvePath& path, double tolerance, int most);
/// Equal steps of length along the path.
[[nodiscard]] std::vector<double> equalBreaks(const CurvePath& path, int count);

} // namespace slab
