#include "core/route/footprint.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::route {

namespace {

Unexpected outOfRange() {
    return fail("out-of-range", "A figure is not in its range.", {}, "Check sizes and angles.");
}

/// Corner of a ring that `value` is greatest at.
template <class F>
int greatestAt(const Ring& ring, const F& value) {
    const auto it = std::max_element(ring.begin(), ring.end(),
                                     [&](const Vec2& a, const Vec2& b) { return value(a) < value(b); });
    return static_cast<int>(it - ring.begin());
}

const Vec2& corner(const Ring& ring, int i) {
    return ring[static_cast<std::size_t>(i)];
}

double distanceTo(const Ring& ring, const Vec2& p) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 a = ring[i], d = ring[(i + 1) % ring.size()] - a;
        const double t = std::clamp((p - a).dot(d) / d.squaredNorm(), 0.0, 1.0);
        least = std::min(least, (a + t * d - p).norm());
    }
    return least;
}

} // namespace

Expected<Footprint> footprintOf(const std::vector<Vec2>& points) {
    for (const Vec2& p : points)
        if (!p.allFinite()) return outOfRange();
    Footprint out{convexHull(points)};
    const Vec2 size = points.empty() ? Vec2(0, 0) : bounds(points).size();
    if (out.outline.size() < 3 || !(signedArea(out.outline) > 1e-12 * size.squaredNorm()))
        return fail("footprint-flat", "The footprint covers no ground.", {},
                    "Give at least three corners, not in one line.");
    return out;
}

Expected<Footprint> rectangleFootprint(double rear, double front, double half) {
    if (!(front > rear) || !(half > 0)) return outOfRange();
    return footprintOf({{rear, -half}, {front, -half}, {front, half}, {rear, half}});
}

Expected<DriveGeometry> steeredDrive(double axle, double wheelbase, double lock) {
    if (!std::isfinite(axle) || !(wheelbase > 0) || !std::isfinite(wheelbase) || !(lock > 0) ||
        !(lock < std::numbers::pi / 2))
        return outOfRange();
    return DriveGeometry{axle, wheelbase / std::tan(lock)};
}

Expected<SweptPath> sweptPath(const Footprint& footprint, double axle, double radius) {
    if (footprint.outline.size() < 3 || !std::isfinite(axle) || !(radius >= 0) || !std::isfinite(radius))
        return outOfRange();
    const Vec2 about(axle, radius);
    const auto away = [&](const Vec2& p) { return (p - about).norm(); };
    SweptPath out;
    out.radius = radius;
    out.outerCorner = greatestAt(footprint.outline, away);
    out.innerCorner = greatestAt(footprint.outline, [&](const Vec2& p) { return -away(p); });
    out.outer = away(corner(footprint.outline, out.outerCorner));
    out.inner = contains(footprint.outline, about) ? 0 : distanceTo(footprint.outline, about);
    return out;
}

Footprint mirrored(const Footprint& footprint) {
    Footprint out;
    for (const Vec2& p : footprint.outline) out.outline.emplace_back(p.x(), -p.y());
    std::reverse(out.outline.begin(), out.outline.end());
    return out;
}

Expected<SweptPath> tightestTurn(const Footprint& footprint, const DriveGeometry& drive) {
    const auto port = sweptPath(footprint, drive.axle, drive.leastRadius);
    if (!port) return port;
    auto starboard = sweptPath(mirrored(footprint), drive.axle, drive.leastRadius);
    if (!starboard || starboard->outer <= port->outer) return port;
    const int last = static_cast<int>(footprint.outline.size()) - 1; // mirroring turned the order round
    starboard->innerCorner = last - starboard->innerCorner;
    starboard->outerCorner = last - starboard->outerCorner;
    return starboard;
}

Expected<double> offTracking(double radius, double wheelbase) {
    if (!(wheelbase >= 0) || !(radius >= wheelbase) || !std::isfinite(radius)) return outOfRange();
    return radius - std::sqrt(radius * radius - wheelbase * wheelbase);
}

Expected<DoorPassage> passDoor(const Footprint& footprint, double height, const Doorway& door, double skew) {
    if (footprint.outline.size() < 3 || !(height > 0) || !std::isfinite(height) || !(door.width > 0) ||
        !(door.height > 0) || !(door.thickness >= 0) || !(std::abs(skew) < std::numbers::pi / 2))
        return outOfRange();
    DoorPassage out;
    out.port = greatestAt(footprint.outline, [](const Vec2& p) { return p.y(); });
    out.starboard = greatestAt(footprint.outline, [](const Vec2& p) { return -p.y(); });
    const double left = corner(footprint.outline, out.port).y(),
                 right = corner(footprint.outline, out.starboard).y();
    const double clear = door.width * std::cos(skew) - door.thickness * std::sin(std::abs(skew));
    out.margin = clear - (left - right);
    out.above = door.height - height;
    out.offset = -(left + right) / 2;
    return out;
}

Expected<RampSize> rampSize(double rise, double slope) {
    if (!(rise >= 0) || !(slope > 0) || !std::isfinite(rise) || !std::isfinite(slope)) return outOfRange();
    return RampSize{rise / slope, std::hypot(rise, rise / slope)};
}

} // namespace slab::route
