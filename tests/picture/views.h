#pragma once
// Invented photographs: pinhole cameras that look at a flat board.
#include "core/picture/homography.h"
#include "tests/geometry/seed.h"
#include <array>
#include <complex>
#include <numbers>

namespace slab {

/// A pinhole camera's map from the board's plane (mm) to pixels: K [r1 r2 t], y of the picture down.
inline Mat3 randomView(std::mt19937_64& random, double width, double height) {
    const double focal = uniform(random, 900, 3500); // px
    const double tilt = uniform(random, -0.9, 0.9), pan = uniform(random, -0.9, 0.9),
                 roll = uniform(random, -0.5, 0.5);
    const Mat3 turn =
        (Eigen::AngleAxisd(roll, Vec3::UnitZ()) * Eigen::AngleAxisd(tilt, Vec3::UnitX()) *
         Eigen::AngleAxisd(pan, Vec3::UnitY()) * Eigen::AngleAxisd(std::numbers::pi, Vec3::UnitX()))
            .toRotationMatrix();
    const double away = uniform(random, 2.0, 6.0) * std::max(width, height);
    const Vec3 middle = turn * Vec3(width / 2, height / 2, 0);
    const Vec3 t =
        Vec3(uniform(random, -0.3, 0.3) * width, uniform(random, -0.3, 0.3) * height, away) - middle;
    Mat3 k, pose;
    k << focal, 0, 1500, 0, focal, 1000, 0, 0, 1;
    pose << turn.col(0), turn.col(1), t;
    return k * pose;
}

inline Vec2 seen(const Mat3& view, const Vec2& place) {
    return (view * place.homogeneous()).hnormalized();
}

/// Normal with mean 0 and standard deviation 1, the same on every platform (Box–Muller).
inline double normal(std::mt19937_64& random) {
    const double u = uniform(random, 0, 1), v = uniform(random, 0, 1);
    return std::sqrt(-2 * std::log(1 - u)) * std::cos(2 * std::numbers::pi * v);
}
inline Vec2 normal2(std::mt19937_64& random) {
    const double x = normal(random);
    return {x, normal(random)};
}

inline std::array<Vec2, 4> rectangle(double width, double height) {
    return {Vec2(0, 0), Vec2(width, 0), Vec2(width, height), Vec2(0, height)};
}

inline std::vector<PointPair> pairsOf(const Mat3& view, std::span<const Vec2> places) {
    std::vector<PointPair> pairs;
    for (const Vec2& p : places) pairs.push_back({seen(view, p), p});
    return pairs;
}

} // namespace slab
