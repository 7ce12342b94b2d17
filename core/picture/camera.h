#pragma once
// Where the camera stood, and what that does to things that lie before or behind the marked plane.
#include "core/picture/doubt.h"
#include "core/picture/homography.h"

namespace slab {

/// The camera's distance from the plane that a picture's sizes hold in.
struct PictureCamera {
    enum class Source { none, typed, corners, lens };
    Source source = Source::none; ///< lens: nothing tells it, so a usual lens is taken
    double distance = 0;          ///< square to the plane, mm
    /// d distance / d each coordinate of the rectangle's corners, mm per px of the fix's `click`.
    std::vector<double> slopes;
    double own = 0; ///< variance of the distance by all else, mm²
    /// Standard error of the distance, mm. @param click  the fix's, px
    [[nodiscard]] double error(double click) const;
    bool operator==(const PictureCamera&) const = default;
};

/// The camera's distance as four corners of a known rectangle tell it: square pixels, the axis through the
/// middle of the picture (to a fiftieth of its longer side), a lens without distortion.
///
/// Nothing where they do not tell it to a third: the rectangle is seen square on, or nearly so.
/// @source  two constraints on the focal length from one plane: Z. Zhang, A Flexible New Technique for Camera
///          Calibration, IEEE PAMI 22 (2000), equations 3, 4 and section 3.1 (pose); both weighted by their
///          covariance (Aitken 1935)
[[nodiscard]] std::optional<PictureCamera> cameraOf(const MarkedRectangle& rectangle);
/// A camera of a usual lens: its focal length lies evenly by logarithm between 0.5 and 3 longer sides.
/// @param mmPerPixel  of the plane, where it is seen
[[nodiscard]] PictureCamera usualCamera(const Vec2& picture, double mmPerPixel);

/// How far what is measured lies before the plane, towards the camera, mm; behind it is negative.
struct PictureDepth {
    Measured before;
    bool shared = false; ///< one figure for all lines of the picture, so its error is theirs together
    [[nodiscard]] bool matters() const { return before.value != 0 || before.error > 0; }
    bool operator==(const PictureDepth&) const = default;
};
/// Least share of the camera's distance that may be left behind a thing.
inline constexpr double leastClear = 0.1;

/// A length that lies level with the plane before or behind it: times (distance − depth) / distance. What it
/// owes to the camera and to a shared depth is added behind what is shared by the marked coordinates.
/// @param slopes  of the length as it is seen in the plane
/// @source  similar triangles; first-order errors, as errorAt
[[nodiscard]] LengthSlopes atDepth(LengthSlopes slopes, const PictureCamera& camera,
                                   const PictureDepth& depth, double click);
/// Value and standard error of what a length owes. @param click  the fix's, px
[[nodiscard]] Measured measuredOf(const LengthSlopes& slopes, double click);

} // namespace slab
