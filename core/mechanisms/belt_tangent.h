#pragma once
// Common tangents of the circles of a belt. Private to the room.
#include "core/mechanisms/belt_path.h"
#include <cmath>
#include <numbers>
#include <optional>

namespace slab::mechanisms {

/// A straight run from one wheel to the next.
struct BeltEdge {
    int from = 0, to = 0;
    double direction = 0; ///< radians
    double length = 0;    ///< mm
};

/// Left of a direction, unit vector.
[[nodiscard]] inline Vec2 normalOf(double direction) {
    return {-std::sin(direction), std::cos(direction)};
}
/// Counter-clockwise turn from one direction to another, [0, 2 pi); what is rounding only is 0.
[[nodiscard]] inline double turnBetween(double from, double to) {
    constexpr double full = 2 * std::numbers::pi;
    double turn = std::fmod(to - from, full);
    if (turn < 0) turn += full;
    return turn > full - 1e-9 ? 0 : turn;
}
/// The tangent that keeps a wheel on its left, or on its right if it stands outside. Nothing if one circle
/// lies within the other (or, on different sides, meets it).
[[nodiscard]] inline std::optional<BeltEdge> tangentTo(const std::vector<BeltCircle>& all, int from, int to) {
    const BeltCircle& a = all[static_cast<std::size_t>(from)];
    const BeltCircle& b = all[static_cast<std::size_t>(to)];
    const Vec2 way = b.centre - a.centre;
    const double distance = way.norm();
    const double more = (b.outside ? -b.radius : b.radius) - (a.outside ? -a.radius : a.radius);
    if (distance <= 0 || std::abs(more) > distance * (1 - 1e-12)) return std::nullopt;
    return BeltEdge{from, to, std::atan2(way.y(), way.x()) - std::asin(more / distance),
                    std::sqrt((distance - more) * (distance + more))};
}

} // namespace slab::mechanisms
