#include "core/picture/doubt.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

/// Focal lengths of usual lenses, in longer sides of the picture: 18 to 108 mm on a frame of 36 mm (common
/// practice: telephones 0.7, wide angles from 0.5).
constexpr double shortest = 0.5, longest = 3;
constexpr int lenses = 24;
/// What lenses that are not quite straight and axes that are not quite central may add.
constexpr double slackAspect = 0.08, slackSkew = 0.05;
constexpr double errors = 3; ///< standard errors of the marked corners

/// The two directions as a lens sees them: logarithm of their lengths' ratio, cosine between them.
struct SeenShape {
    double aspect = 0, skew = 0;
};
SeenShape shapeBehind(const std::array<Vec2, 4>& corners, double focal) {
    const UnitSides s = unitSides(corners);
    const auto behind = [&](const Vec3& v) { return Vec3(v.x() / focal, v.y() / focal, v.z()); };
    const Vec3 a = behind(s.across), b = behind(s.down);
    return {std::log(a.norm() / b.norm()), a.dot(b) / (a.norm() * b.norm())};
}

/// What the corners' errors may do to it, `errors` times their standard error.
SeenShape spreadOf(const std::array<Vec2, 4>& corners, double focal, const std::array<double, 4>& click) {
    const SeenShape shape = shapeBehind(corners, focal);
    double aspect = 0, skew = 0;
    for (std::size_t i = 0; i < 8; ++i) {
        std::array<Vec2, 4> moved = corners;
        moved[i / 2][static_cast<Eigen::Index>(i % 2)] += click[i / 2];
        const SeenShape other = shapeBehind(moved, focal);
        aspect += std::pow(other.aspect - shape.aspect, 2);
        skew += std::pow(other.skew - shape.skew, 2);
    }
    return {errors * std::sqrt(aspect), errors * std::sqrt(skew)};
}

/// Logarithms of aspects.
struct Range {
    double least = std::numeric_limits<double>::infinity(), most = -std::numeric_limits<double>::infinity();
    void take(double value, double slack) {
        least = std::min(least, value - slack);
        most = std::max(most, value + slack);
    }
    [[nodiscard]] bool holds(double value) const { return value >= least && value <= most; }
};

} // namespace

UnitSides unitSides(const std::array<Vec2, 4>& q) {
    const Vec2 d1 = q[1] - q[2], d2 = q[3] - q[2], s = q[0] - q[1] + q[2] - q[3];
    const double det = cross2(d1, d2), g = cross2(s, d2) / det, h = cross2(d1, s) / det;
    const Vec2 a = q[1] - q[0] + g * q[1], b = q[3] - q[0] + h * q[3];
    return {{a.x(), a.y(), g}, {b.x(), b.y(), h}};
}

std::optional<RectangleDoubt> doubtOf(const MarkedRectangle& r) {
    const double side = r.picture.maxCoeff();
    if (!(side > 0) || !(r.width > 0) || !(r.height > 0)) return {};
    std::array<Vec2, 4> corners;
    std::array<double, 4> click{};
    for (std::size_t i = 0; i < 4; ++i) {
        corners[i] = (r.corners[i] - r.picture / 2) / side;
        click[i] = (r.own[i] > 0 ? r.own[i] : r.click) / side;
    }
    Range seen, any;
    for (int i = 0; i < lenses; ++i) {
        const double focal = shortest * std::pow(longest / shortest, i / (lenses - 1.0));
        const SeenShape shape = shapeBehind(corners, focal), spread = spreadOf(corners, focal, click);
        any.take(shape.aspect, spread.aspect + slackAspect);
        if (std::abs(shape.skew) <= spread.skew + slackSkew)
            seen.take(shape.aspect, spread.aspect + slackAspect);
    }
    using Kind = RectangleDoubt::Kind;
    const double stated = std::log(r.width / r.height);
    if (seen.holds(stated)) return {};
    // Whatever the lens, that the sides were changed over is the likelier slip.
    const bool odd = !(seen.least <= seen.most);
    const Range& range = odd ? any : seen;
    if (range.holds(-stated) && !range.holds(stated))
        return RectangleDoubt{Kind::swapped, std::exp(range.least), std::exp(range.most)};
    if (odd) return RectangleDoubt{Kind::corners, 0, 0};
    return RectangleDoubt{Kind::sides, std::exp(seen.least), std::exp(seen.most)};
}

Error inWords(const RectangleDoubt& doubt, const MarkedRectangle& r, const UnitStyle& units) {
    const std::string typed = printFine(r.width, units) + " by " + printFine(r.height, units);
    const std::string looks = "as marked, the rectangle looks ";
    switch (doubt.kind) {
    case RectangleDoubt::Kind::swapped:
        return {"picture-rectangle-swapped",
                looks + (r.width > r.height ? "higher than it is wide" : "wider than it is high") +
                    "; its sides of " + typed + " seem to be the wrong way round.",
                "rectangle_width", "The first corner to the second is the width: swap the two sides."};
    case RectangleDoubt::Kind::sides:
        return {"picture-rectangle-doubt",
                looks + plainNumber(doubt.least, 2) + " to " + plainNumber(doubt.most, 2) +
                    " times as wide as it is high; its sides of " + typed + " make that " +
                    plainNumber(r.width / r.height, 2) + ".",
                "rectangle_width",
                "Measure both sides again and check which corner was clicked first; leave it if you are "
                "sure, or if the photo was cut down before."};
    default:
        return {"picture-rectangle-doubt",
                "the four marked corners do not look like those of a rectangle, from wherever it is seen.",
                "corners",
                "Click the corners of one flat rectangle again, in order round it; leave them if you are "
                "sure, or if the photo was cut down before."};
    }
}

} // namespace slab
