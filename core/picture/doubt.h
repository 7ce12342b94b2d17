#pragma once
// What the laws of a camera say against the sides that were typed for a marked rectangle.
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include "core/units/units.h"
#include <array>
#include <optional>

namespace slab {

/// A rectangle marked on a picture, and its sides as typed.
struct MarkedRectangle {
    std::array<Vec2, 4> corners;  ///< px, in order round it
    double width = 0, height = 0; ///< first to second corner, second to third, mm
    Vec2 picture = Vec2::Zero();  ///< px across and down of the whole picture
    double click = 1;             ///< standard error of one coordinate of a corner, px …
    std::array<double, 4> own{};  ///< … or of each its own; 0 = `click`
};

/// The first two columns of the map from the unit square to a quadrilateral; the third is its first corner.
struct UnitSides {
    Vec3 across, down;
};
/// @source  P. Heckbert, Fundamentals of Texture Mapping and Image Warping, 1989, 2.2.3
[[nodiscard]] UnitSides unitSides(const std::array<Vec2, 4>& corners);

struct RectangleDoubt {
    enum class Kind {
        swapped, ///< as marked it has the sides, but the wrong way round
        sides,   ///< it is wider or higher than the sides say
        corners  ///< no camera sees a rectangle so
    } kind = Kind::sides;
    double least = 0, most = 0; ///< width over height that the picture allows; 0 for `corners`
    bool operator==(const RectangleDoubt&) const = default;
};

/// Nothing where a camera with square pixels, its axis through the middle of the picture and a usual lens
/// (focal length 0.5 to 3 times the picture's longer side) can have seen the rectangle with those sides.
/// It is a doubt and no proof: a picture that was cut down before has its axis elsewhere.
///
/// The corners must be in order round a convex quadrilateral (homographyOf refuses others).
/// @source  the columns of a homography are two perpendicular directions of equal length behind the lens: R.
///          Hartley, A. Zisserman, Multiple View Geometry, 2nd ed. 2004, example 8.18
[[nodiscard]] std::optional<RectangleDoubt> doubtOf(const MarkedRectangle& rectangle);
/// Code, words that go on after a picture's name, the field that is doubted, and what to do.
[[nodiscard]] Error inWords(const RectangleDoubt& doubt, const MarkedRectangle& rectangle,
                            const UnitStyle& units);

} // namespace slab
