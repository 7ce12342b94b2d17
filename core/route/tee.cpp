#include "core/route/tee.h"
#include "core/route/bounded.h"
#include <cmath>
#include <numbers>

namespace slab::route {

namespace {

constexpr double quarter = std::numbers::pi / 2;

/// Turned to port by a heading, x ahead in the stem: the arms' far wall is ahead, the arm that is meant to
/// port.
Ring turnedBy(const Footprint& footprint, double heading) {
    const Eigen::Matrix2d turn = Eigen::Rotation2Dd(heading).toRotationMatrix();
    Ring out;
    for (const Vec2& v : footprint.outline) out.push_back(turn * v);
    return out;
}

/// From side to side of what lies behind a line across the stem; nothing behind it: empty.
struct Behind {
    double starboard = 1, port = -1; ///< y
    [[nodiscard]] double width() const { return std::max(0.0, port - starboard); }
};
Behind behind(const Ring& ring, double line) {
    double low = 1e300, high = -1e300;
    const auto meet = [&](double y) { low = std::min(low, y), high = std::max(high, y); };
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        if (a.x() <= line) meet(a.y());
        if ((a.x() < line) != (b.x() < line))
            meet(a.y() + (line - a.x()) / (b.x() - a.x()) * (b.y() - a.y()));
    }
    return low <= high ? Behind{low, high} : Behind{};
}

double farthest(const Ring& ring) {
    double most = -1e300;
    for (const Vec2& p : ring) most = std::max(most, p.x());
    return most;
}

/// By how much stem and arms could both be narrower with the ring as it is turned. The narrower the arms, the
/// more of it is still in the stem, so that one side of the balance only rises and the other only falls.
double spare(const Ring& ring, const Tee& tee, double within) {
    const double front = farthest(ring);
    double low = -bounds(ring).size().norm(), high = std::min(tee.stem, tee.arms);
    while (high - low > within) {
        const double m = (low + high) / 2;
        (behind(ring, front - tee.arms + m).width() <= tee.stem - m ? low : high) = m;
    }
    return low;
}

int next(const Ring& ring, const Vec2& way) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < ring.size(); ++i)
        if (way.dot(ring[i]) > way.dot(ring[best])) best = i;
    return static_cast<int>(best);
}

} // namespace

Expected<CornerPassage> carryIntoArm(const Footprint& footprint, const Tee& tee, double tolerance) {
    if (footprint.outline.size() < 3 || !(tee.stem > 0) || !(tee.arms > 0) ||
        !std::isfinite(tee.stem + tee.arms) || !(tolerance > 0))
        return fail("out-of-range", "A T needs two widths above 0.", {}, "Check the corridors' sizes.");
    const Box2 box = bounds(footprint.outline);
    double reach = 0; // a point moves no further than this times the turn
    for (const Vec2& v : footprint.outline) reach = std::max(reach, (v - (box.min + box.max) / 2).norm());
    const auto at = [&](double heading) { return spare(turnedBy(footprint, heading), tee, tolerance / 8); };
    // Turned by δ all of it stays in a T that is wider by reach · δ on every side.
    const ProvedLeast least = provedLeast(at, 0, quarter, 2 * reach, tolerance);
    CornerPassage out{
        least.value, least.slack + tolerance / 8, CornerLimit::innerEdge, least.at, 0, {}, 0, 0};
    const double before = tee.stem - box.size().y(), after = tee.arms - box.size().y();
    if (before < out.margin)
        out.margin = before, out.slack = 0, out.limit = CornerLimit::wayIn, out.heading = 0;
    if (after < out.margin)
        out.margin = after, out.slack = 0, out.limit = CornerLimit::wayOut, out.heading = quarter;
    const Ring ring = turnedBy(footprint, out.heading);
    const double line = farthest(ring) - tee.arms + out.margin;
    const Behind left = behind(ring, line);
    const Vec2 edge(line,
                    left.width() > 0 ? left.port + (tee.stem - left.width()) / 2 : bounds(ring).max.y());
    out.at = Eigen::Rotation2Dd(-out.heading) * edge;
    out.firstWall = next(ring, Vec2::UnitX());
    out.secondWall = next(ring, -Vec2::UnitX());
    return out;
}

} // namespace slab::route
