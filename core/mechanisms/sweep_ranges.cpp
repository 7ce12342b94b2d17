// Where in its range a moving part is near, and rings about an axis as quick bounds.
#include "core/geometry/convex_core.h"
#include "core/mechanisms/shown.h"
#include "core/mechanisms/sweep.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

/// Long enough to stand for a whole axis beside anything that is built, mm.
constexpr double longAxis = 1e5;

/// Exact for hulls. A flat end of a cylinder is taken by the corners of a polygon round it, of which the
/// farthest is no nearer than the disc's and farther by less than 0.06 % of the radius.
double farthestFrom(const ConvexSolid& s, const Vec3& at, const Vec3& axis) {
    double far = 0;
    if (s.kind == ConvexSolid::Kind::cylinder && s.points.size() == 2 && s.points[0] != s.points[1]) {
        constexpr int rim = 96;
        const Vec3 way = (s.points[1] - s.points[0]).normalized();
        // One corner pair lies along the axis' own direction or square to it, where the farthest often is.
        const Vec3 side = axis.cross(way);
        const Vec3 u = side.norm() > 1e-9 ? Vec3(side.normalized()) : way.unitOrthogonal(), v = way.cross(u);
        const double outside = s.radius / std::cos(std::numbers::pi / rim);
        for (const Vec3& p : s.points)
            for (int i = 0; i < rim; ++i) {
                const double a = 2 * std::numbers::pi * i / rim;
                const Vec3 corner = p + outside * (std::cos(a) * u + std::sin(a) * v);
                far = std::max(far, axis.cross(corner - at).norm());
            }
        return far;
    }
    for (const Vec3& p : s.points) far = std::max(far, axis.cross(p - at).norm());
    return far + s.radius;
}

struct RangeFinder {
    const Motion& motion;
    const std::vector<ConvexSolid>& moving;
    double wanted, step;
    std::vector<Prepared> home, fixed; ///< of the moving and the fixed pieces
    std::vector<double> reach;
    std::vector<std::pair<double, double>> found;
    using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;

    void take(double from, double to) {
        if (!found.empty() && from <= found.back().second + 1e-12)
            found.back().second = to;
        else
            found.emplace_back(from, to);
    }

    void search(double from, double to, const Pairs& pairs) {
        const double middle = (from + to) / 2, half = (to - from) / 2;
        const Pose pose = poseAt(motion, {middle});
        Pairs open;
        bool near = false;
        std::size_t placedOf = moving.size();
        ConvexSolid placed;
        for (const auto& [m, f] : pairs) {
            if (m != placedOf) {
                placed = placedBy(pose, moving[m]);
                placedOf = m;
            }
            Prepared prepared(placed);
            prepared.turnedFrom(home[m], pose.turn);
            const Nearest n = nearest(prepared, fixed[f], false); // a depth costs more than halving again
            const double d = n.meets ? -1e-9 : n.distance, way = reach[m] * half;
            if (d + way < wanted) return take(from, to);
            if (d - way < wanted) open.emplace_back(m, f);
            near = near || d < wanted;
        }
        if (open.empty()) return;
        if (to - from <= step) {
            if (near) take(from, to);
            return;
        }
        search(from, middle, open);
        search(middle, to, open);
    }
};

} // namespace

std::vector<std::pair<double, double>> rangesNearer(const Motion& motion,
                                                    const std::vector<ConvexSolid>& moving,
                                                    const std::vector<ConvexSolid>& fixed, double wanted,
                                                    double step) {
    if (motion.moves.size() != 1 || !(step > 0)) return {};
    const Move& m = motion.moves.front();
    RangeFinder finder{motion, moving, wanted, step, {}, {}, {}, {}};
    for (const ConvexSolid& s : moving) finder.home.emplace_back(s);
    for (const ConvexSolid& s : fixed) finder.fixed.emplace_back(s);
    for (const ConvexSolid& s : moving) finder.reach.push_back(m.slides ? 1 : farthestFrom(s, m.at, m.axis));
    RangeFinder::Pairs pairs;
    for (std::size_t i = 0; i < moving.size(); ++i)
        for (std::size_t j = 0; j < fixed.size(); ++j) pairs.emplace_back(i, j);
    const double from = m.endless ? 0 : m.from, to = m.endless ? 2 * std::numbers::pi : m.to;
    finder.search(from, to, pairs);
    auto& found = finder.found;
    // All the way round, a range that ends with the turn goes on where it began.
    if (m.endless && found.size() > 1 && found.front().first == from && found.back().second == to) {
        found.front().first = found.back().first - to;
        found.pop_back();
    }
    return found;
}

Ringed ringedBy(const ConvexSolid& solid, const Vec3& at, const Vec3& axis) {
    Ringed ring;
    ring.outer = farthestFrom(solid, at, axis);
    const Core core(solid);
    ring.low = -core.reach(-axis) - core.margin - at.dot(axis);
    ring.high = core.reach(axis) + core.margin - at.dot(axis);
    const ConvexSolid line{ConvexSolid::Kind::hull, {at - longAxis * axis, at + longAxis * axis}, 0};
    // Less what the search for the distance from so long a line may be off by.
    ring.inner = std::max(0.0, nearest(solid, line).distance - 1e-3);
    return ring;
}

Ringed sweptRing(const Motion& motion, const ConvexSolid& solid) {
    if (motion.moves.size() == 1) return ringedBy(solid, motion.moves.back().at, motion.moves.back().axis);
    Vec3 centre = Vec3::Zero();
    for (const Vec3& p : solid.points) centre += p / static_cast<double>(solid.points.size());
    double radius = 0;
    for (const Vec3& p : solid.points) radius = std::max(radius, (p - centre).norm());
    const bool flat = solid.kind == ConvexSolid::Kind::cylinder; // its ends are square to the way to them
    radius = flat ? std::hypot(radius, solid.radius) : radius + solid.radius;
    for (std::size_t i = 0; i + 1 < motion.moves.size(); ++i) {
        const Move& m = motion.moves[i];
        if (m.slides) {
            centre += (m.from + m.to) / 2 * m.axis;
            radius += (m.to - m.from) / 2;
        } else {
            const Vec3 foot = m.at + m.axis.dot(centre - m.at) * m.axis;
            radius += (centre - foot).norm();
            centre = foot;
        }
    }
    const ConvexSolid ball{ConvexSolid::Kind::hull, {centre}, radius};
    return ringedBy(ball, motion.moves.back().at, motion.moves.back().axis);
}

double ringGap(const Ringed& a, const Ringed& b) {
    const double across = std::max({0.0, a.inner - b.outer, b.inner - a.outer});
    const double along = std::max({0.0, a.low - b.high, b.low - a.high});
    return std::hypot(across, along);
}

namespace {

/// Values of the first of two moves, the second turning all that lies between its ends.
struct RingProof {
    const Move &first, &turn;
    const ConvexSolid& piece;
    double wanted, reach;
    std::map<double, Ringed> seen; ///< rings of the piece by the first move's value
    double failed = 0;             ///< where the last proof failed

    const Ringed& at(double value) {
        const auto known = seen.find(value);
        if (known != seen.end()) return known->second;
        return seen
            .emplace(value, ringedBy(placedBy(poseAt({{}, {first}}, {value}), piece), turn.at, turn.axis))
            .first->second;
    }
    bool holds(const Ringed& other, double from, double to, int left) {
        const double middle = (from + to) / 2, way = reach * (to - from) / 2;
        const Ringed& ring = at(middle);
        failed = middle;
        if (ringGap(ring, other) < wanted) return false;
        const Ringed wide{std::max(0.0, ring.inner - way), ring.outer + way, ring.low - way, ring.high + way};
        if (ringGap(wide, other) >= wanted) return true;
        return left > 0 && holds(other, from, middle, left - 1) && holds(other, middle, to, left - 1);
    }
};

} // namespace

RingsLeft leftByRings(const Motion& motion, const std::vector<ConvexSolid>& moving,
                      const std::vector<ConvexSolid>& fixed, double wanted) {
    RingsLeft out;
    if (motion.moves.size() != 2 || motion.moves[1].slides) return {moving, fixed, {}};
    const Move &first = motion.moves[0], &turn = motion.moves[1];
    const double from = first.endless ? -std::numbers::pi : first.from,
                 to = first.endless ? std::numbers::pi : first.to;
    std::vector<Ringed> others;
    for (const ConvexSolid& piece : fixed) others.push_back(ringedBy(piece, turn.at, turn.axis));
    std::vector<char> left(fixed.size(), 0);
    constexpr int halvings = 9;
    for (const ConvexSolid& piece : moving) {
        RingProof proof{
            first, turn, piece, wanted, first.slides ? 1 : farthestFrom(piece, first.at, first.axis), {}, 0};
        bool all = true;
        for (std::size_t j = 0; j < fixed.size(); ++j) {
            if (proof.holds(others[j], from, to, halvings)) continue;
            all = false;
            left[j] = 1;
            if (!out.suspect) out.suspect = proof.failed;
        }
        if (!all) out.moving.push_back(piece);
    }
    for (std::size_t j = 0; j < fixed.size(); ++j)
        if (left[j]) out.fixed.push_back(fixed[j]);
    return out;
}

} // namespace slab
