// Two-point calibration, placing, and how errors of marked points travel through a map.
#include "core/picture/homography.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

using Mat2 = Eigen::Matrix2d;

/// d place / d homogeneous place, where the place is (x / w, y / w).
Eigen::Matrix<double, 2, 3> dehomogenise(const Vec3& y) {
    Eigen::Matrix<double, 2, 3> d;
    d << 1 / y.z(), 0, -y.x() / (y.z() * y.z()), 0, 1 / y.z(), -y.y() / (y.z() * y.z());
    return d;
}

/// What a place owes to each marked coordinate of the map, and to its own pixel.
struct PlaceSlopes {
    Vec2 place;
    std::vector<Vec2> shared;
    Mat2 own;
};
PlaceSlopes placeSlopes(const PlaneFix& fix, const Vec2& pixel) {
    const Vec3 x = pixel.homogeneous(), y = fix.map * x;
    const auto d = dehomogenise(y);
    PlaceSlopes s{y.head<2>() / y.z(), {}, d * fix.map.leftCols<2>()};
    s.shared.reserve(fix.slopes.size());
    for (const Mat3& slope : fix.slopes) s.shared.emplace_back(d * slope * x);
    return s;
}

Unexpected samePoints() {
    return fail("picture-points-same", "The two points of the known distance lie in one place.", "to",
                "Mark two points that lie far apart.");
}

/// Matrix of z → at + m · conj(p − from): a picture's y runs down.
Mat3 flipped(const Vec2& m, const Vec2& from, const Vec2& at) {
    Mat2 a;
    a << m.x(), m.y(), m.y(), -m.x();
    Mat3 map = Mat3::Identity();
    map.topLeftCorner<2, 2>() = a;
    map.topRightCorner<2, 1>() = at - a * from;
    return map;
}

Vec2 times(const Vec2& a, const Vec2& b) {
    return {a.x() * b.x() - a.y() * b.y(), a.x() * b.y() + a.y() * b.x()};
}
Vec2 over(const Vec2& a, const Vec2& b) {
    return times(a, Vec2(b.x(), -b.y())) / b.squaredNorm();
}

/// Whole quarters that bring the picture's right, as it runs at a place, closest to the elevation's.
double upright(const PlaceSlopes& at) {
    constexpr double quarter = std::numbers::pi / 2;
    const Vec2 right = at.own.col(0);
    return -std::round(std::atan2(right.y(), right.x()) / quarter) * quarter;
}

Mat3 turnAbout(double angle, const Vec2& pivot, const Vec2& at) {
    const Mat2 r = Eigen::Rotation2Dd(angle).toRotationMatrix();
    Mat3 t = Mat3::Identity();
    t.topLeftCorner<2, 2>() = r;
    t.topRightCorner<2, 1>() = at - r * pivot;
    return t;
}

} // namespace

Vec2 toPlane(const PlaneFix& fix, const Vec2& pixel) {
    return (fix.map * pixel.homogeneous()).hnormalized();
}

Vec2 toPixel(const PlaneFix& fix, const Vec2& place) {
    return (fix.map.inverse() * place.homogeneous()).hnormalized();
}

bool isBeforeHorizon(const PlaneFix& fix, const Vec2& pixel, const Vec2& near) {
    const Eigen::RowVector3d w = fix.map.row(2);
    return w.dot(pixel.homogeneous()) >= leastDepth * w.dot(near.homogeneous());
}

PlaceError errorAt(const PlaneFix& fix, const Vec2& pixel, bool marked) {
    const PlaceSlopes s = placeSlopes(fix, pixel);
    Mat2 c = Mat2::Zero();
    for (const Vec2& v : s.shared) c += v * v.transpose();
    if (marked) c += s.own * s.own.transpose();
    c *= fix.click * fix.click;
    const double middle = (c(0, 0) + c(1, 1)) / 2, half = std::hypot((c(0, 0) - c(1, 1)) / 2, c(0, 1));
    PlaceError e{c(0, 0), c(0, 1), c(1, 1), std::sqrt(middle + half), std::sqrt(std::max(middle - half, 0.0)),
                 0};
    if (half > 0) e.turn = std::atan2(2 * c(0, 1), c(0, 0) - c(1, 1)) / 2;
    return e;
}

LengthSlopes lengthSlopes(const PlaneFix& fix, const Vec2& from, const Vec2& to, double click) {
    const PlaceSlopes a = placeSlopes(fix, from), b = placeSlopes(fix, to);
    const Vec2 between = b.place - a.place;
    LengthSlopes out;
    out.value = between.norm();
    const Vec2 along = out.value > 0 ? Vec2(between / out.value) : Vec2::UnitX();
    for (std::size_t k = 0; k < a.shared.size(); ++k)
        out.shared.push_back(along.dot(b.shared[k] - a.shared[k]));
    const double own = click > 0 ? click : fix.click;
    out.own =
        own * own * ((along.transpose() * a.own).squaredNorm() + (along.transpose() * b.own).squaredNorm());
    return out;
}

Measured measure(const PlaneFix& fix, const Vec2& from, const Vec2& to, double click) {
    const LengthSlopes s = lengthSlopes(fix, from, to, click);
    double variance = s.own;
    for (double v : s.shared) variance += fix.click * fix.click * v * v;
    return {s.value, std::sqrt(variance)};
}

PlaneFix takenIn(const PlaneFix& fix, const KnownLength& length) {
    const LengthSlopes s = lengthSlopes(fix, length.from, length.to, length.click);
    double square = 0;
    for (double v : s.shared) square += v * v;
    const double shared = fix.click * fix.click * square, all = shared + s.own;
    if (!(shared > 0) || !(all > 0)) return fix;
    // All that is learnt lies along one direction of the marked coordinates.
    const double off = length.known - s.value, narrowed = 1 - std::sqrt(s.own / all);
    Mat3 along = Mat3::Zero();
    for (std::size_t k = 0; k < s.shared.size(); ++k) along += s.shared[k] * fix.slopes[k];
    PlaneFix out = fix;
    out.map += along * (fix.click * fix.click * off / all);
    for (std::size_t k = 0; k < s.shared.size(); ++k)
        out.slopes[k] -= along * (narrowed * s.shared[k] / square);
    return out;
}

PlaneFix withOwnErrors(const PlaneFix& flat, const PlaneFix& placed) {
    PlaneFix out{placed.map, {}, flat.click};
    const Mat3 move = placed.map * flat.map.inverse();
    for (const Mat3& slope : flat.slopes) out.slopes.push_back(move * slope);
    return out;
}

Expected<PlaneFix> calibrated(const TwoPoints& two, double click) {
    if (!(two.distance > 0) || !std::isfinite(two.distance))
        return fail("picture-distance", "The known distance is not above zero.", "distance",
                    "Type the distance that lies between the two points.");
    const Vec2 across = two.to - two.from;
    if (!(across.norm() > 1)) return samePoints();
    const Vec2 line(across.x(), -across.y()); // as seen: up is positive
    const double r = line.norm();
    const Vec2 m = two.turn ? over(Vec2(std::cos(*two.turn), std::sin(*two.turn)) * two.distance, line)
                            : Vec2(two.distance / r, 0);
    PlaneFix fix{flipped(m, two.from, two.at), {}, click};
    const Mat2 a = fix.map.topLeftCorner<2, 2>();
    for (int k = 0; k < 4; ++k) { // x, y of `from`, then of `to`
        const Vec2 move = Vec2::Unit(k % 2);
        const Vec2 dLine = Vec2(move.x(), -move.y()) * (k < 2 ? -1 : 1);
        const Vec2 dm =
            two.turn ? Vec2(-times(m, over(dLine, line))) : Vec2(-m * (line.dot(dLine) / (r * r)));
        Mat2 da;
        da << dm.x(), dm.y(), dm.y(), -dm.x();
        Mat3 slope = Mat3::Zero();
        slope.topLeftCorner<2, 2>() = da;
        slope.topRightCorner<2, 1>() = -da * two.from - (k < 2 ? Vec2(a * move) : Vec2(Vec2::Zero()));
        fix.slopes.push_back(slope);
    }
    return fix;
}

Expected<PlaneFix> placed(const PlaneFix& flat, const TwoPoints& two) {
    const PlaceSlopes f = placeSlopes(flat, two.from), t = placeSlopes(flat, two.to);
    const Vec2 line = t.place - f.place;
    double angle = 0;
    if (two.turn) {
        if (!((two.to - two.from).norm() > 1)) return samePoints();
        angle = *two.turn - std::atan2(line.y(), line.x());
    }
    const Mat3 move = turnAbout(angle, f.place, two.at);
    PlaneFix out{move * flat.map, {}, flat.click};
    const Mat2 turned = move.topLeftCorner<2, 2>();
    Mat2 quarter;
    quarter << 0, -1, 1, 0;
    const auto slopeOf = [&](const Vec2& dFrom, const Vec2& dTo) {
        const double dAngle = two.turn ? -cross2(line, dTo - dFrom) / line.squaredNorm() : 0;
        Mat3 d = Mat3::Zero();
        d.topLeftCorner<2, 2>() = quarter * turned * dAngle;
        d.topRightCorner<2, 1>() = -quarter * turned * f.place * dAngle - turned * dFrom;
        return d;
    };
    for (std::size_t k = 0; k < flat.slopes.size(); ++k)
        out.slopes.push_back(slopeOf(f.shared[k], t.shared[k]) * flat.map + move * flat.slopes[k]);
    for (int k = 0; k < 2; ++k) out.slopes.push_back(slopeOf(f.own.col(k), Vec2::Zero()) * flat.map);
    if (two.turn)
        for (int k = 0; k < 2; ++k) out.slopes.push_back(slopeOf(Vec2::Zero(), t.own.col(k)) * flat.map);
    return out;
}

PlaneFix placed(const PlaneFix& flat, const Vec2& at, std::optional<double> turn, const Vec2& near) {
    const double angle = turn ? *turn : upright(placeSlopes(flat, near));
    const Mat3 move = turnAbout(angle, Vec2::Zero(), at);
    PlaneFix out{move * flat.map, {}, flat.click};
    for (const Mat3& slope : flat.slopes) out.slopes.push_back(move * slope);
    return out;
}

} // namespace slab
