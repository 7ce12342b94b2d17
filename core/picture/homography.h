#pragma once
// From the pixels of a picture to millimetres in an elevation, and how sure that is.
//
// Pixels: x to the right, y down, from the upper left corner of the whole picture. Elevation: mm, to the
// right and up. The known sizes (a rectangle's sides, a distance) count as exact; only the marked points are
// uncertain.
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <optional>
#include <span>
#include <vector>

namespace slab {

/// A marked point of a picture and where it lies in truth.
struct PointPair {
    Vec2 pixel = Vec2::Zero();
    Vec2 plane = Vec2::Zero(); ///< mm
};

/// A map from pixels to a plane with all that it owes to the marked points.
struct PlaneFix {
    Mat3 map =
        Mat3::Identity(); ///< (x px, y px, 1) to (right mm, up mm, 1), homogeneous; w > 0 on the near side
    std::vector<Mat3> slopes; ///< d map / d one marked coordinate (x, then y of each point), per px
    double click = 1;         ///< standard error of one coordinate of a marked point, px
    bool operator==(const PlaneFix&) const = default;
};

/// Where a pixel lies, mm. Not finite on the horizon (w = 0).
[[nodiscard]] Vec2 toPlane(const PlaneFix& fix, const Vec2& pixel);
/// The pixel that shows a place, mm to px.
[[nodiscard]] Vec2 toPixel(const PlaneFix& fix, const Vec2& place);
/// The least w over w at `near` at which a map is still of use: lengths are stretched by more than
/// 1 / leastDepth² beyond it.
inline constexpr double leastDepth = 0.2;
/// True where a pixel lies on the near side of the horizon, compared with `near`.
[[nodiscard]] bool isBeforeHorizon(const PlaneFix& fix, const Vec2& pixel, const Vec2& near);

/// How far a place may be off: its covariance and the ellipse of one standard error.
struct PlaceError {
    double xx = 0, xy = 0, yy = 0; ///< covariance, mm²
    double major = 0, minor = 0;   ///< half axes of the ellipse, mm
    double turn = 0;               ///< of the longer axis from right towards up, radians
    bool operator==(const PlaceError&) const = default;
};
/// Uncertainty of the place that a pixel shows, to first order.
/// @param marked  the pixel itself was marked by hand, with the same standard error; else it is exact
/// @source  A. Criminisi, I. Reid, A. Zisserman, A Plane Measuring Device, BMVC 1997, sections 5 and 6
[[nodiscard]] PlaceError errorAt(const PlaneFix& fix, const Vec2& pixel, bool marked = true);

/// A length with its standard error, mm.
struct Measured {
    double value = 0, error = 0;
    bool operator==(const Measured&) const = default;
};
/// What a length between two marked pixels owes to the map's own marked points and to its own two.
struct LengthSlopes {
    double value = 0;           ///< mm
    std::vector<double> shared; ///< by each of the fix's marked coordinates, mm per px
    double own = 0;             ///< variance by its own two points, mm²
};
/// @param click  standard error of one coordinate of the line's own ends, px; 0 = as the fix's points
[[nodiscard]] LengthSlopes lengthSlopes(const PlaneFix& fix, const Vec2& from, const Vec2& to,
                                        double click = 0);
/// Distance between two marked pixels, with the errors of the map's points and of the line's own.
/// @source  as errorAt, "uncertainty in world distance"
[[nodiscard]] Measured measure(const PlaneFix& fix, const Vec2& from, const Vec2& to, double click = 0);

/// The same map after a distance on it turned out to be known: the marked points move within their errors as
/// far as that is likely, and what is left of the errors is what the distance does not tell.
///
/// To first order no error of a place or length grows by it.
/// @param known  mm, counts as exact
/// @param click  standard error of one coordinate of `from` and `to`, px; 0 = as the fix's points
/// @source  best linear estimate from one more observation: R. E. Kalman 1960; E. M. Mikhail, F. Ackermann,
///          Observations and Least Squares, 1976 (sequential adjustment)
struct KnownLength {
    Vec2 from = Vec2::Zero(), to = Vec2::Zero(); ///< px
    double known = 0, click = 0;
};
[[nodiscard]] PlaneFix takenIn(const PlaneFix& fix, const KnownLength& length);
/// A map moved as a whole: errors within the plane stay, what it owes to where it was put is left out.
[[nodiscard]] PlaneFix withOwnErrors(const PlaneFix& flat, const PlaneFix& placed);

/// A plane seen at an angle.
struct Homography {
    PlaneFix fix;
    std::vector<double> residuals; ///< of each pair: marked pixel to the one that the map gives back, px
    double rms = 0;                ///< root mean square of the residuals' coordinates, px; 0 for four pairs
};
/// Map from at least four pairs: normalised DLT, and for more than four the least squares of the pixels.
///
/// @error "picture-corners-few", "picture-corners-same" (two in one place), "picture-corners-line" (three on
/// a line),
///        "picture-corners-cross" (not in order round the rectangle), "picture-corners-hollow" (one lies
///        between the others), "picture-corners-fit" (the points contradict each other)
/// @source  R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed. 2004, algorithm 4.2
/// (the
///          normalised DLT) and section 4.2.3 (error in one image, as the plane's sizes are exact)
[[nodiscard]] Expected<Homography> homographyOf(std::span<const PointPair> pairs, double click = 1);

/// A picture taken square on: two marked points and the distance between them.
///
/// @param distance  between the two, mm, above zero
/// @param at        where `from` stands, mm
/// @param turn      the line from–to is turned to this angle from right towards up, radians; none = upright
/// as it is
/// @error "picture-points-same" when the two points lie within a pixel, "picture-distance" when distance ≤ 0
struct TwoPoints {
    Vec2 from = Vec2::Zero(), to = Vec2::Zero(); ///< px
    double distance = 0;
    Vec2 at = Vec2::Zero();
    std::optional<double> turn;
};
[[nodiscard]] Expected<PlaneFix> calibrated(const TwoPoints& two, double click = 1);

/// A rectified picture moved so that the pixel `from` stands at `at`, and turned so that from–to has the
/// angle `turn`; without a turn it is only moved.
/// @param two  its distance is not used; `to` only with a turn
/// @error "picture-points-same"
[[nodiscard]] Expected<PlaneFix> placed(const PlaneFix& flat, const TwoPoints& two);
/// The same without marked points: the plane's own origin stands at `at`, its first axis has the angle
/// `turn`. Without a turn the picture stays upright: turned by whole quarters, so that right stays right at
/// the pixel `near`.
[[nodiscard]] PlaneFix placed(const PlaneFix& flat, const Vec2& at, std::optional<double> turn,
                              const Vec2& near);

} // namespace slab
