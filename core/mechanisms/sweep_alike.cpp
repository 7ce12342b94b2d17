// Parts that are the same but for a turn about their axis, and what is met as drawn.
#include "core/mechanisms/shown.h"
#include "core/mechanisms/sweep.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double samePlace = 1e-6; ///< mm

Vec3 middleOf(const std::vector<ConvexSolid>& pieces) {
    Vec3 sum = Vec3::Zero();
    std::size_t count = 0;
    for (const ConvexSolid& s : pieces)
        for (const Vec3& p : s.points) {
            sum += p;
            ++count;
        }
    return count ? Vec3(sum / static_cast<double>(count)) : sum;
}

/// The same corners, in any order.
bool sameSolid(const ConvexSolid& a, const ConvexSolid& b) {
    if (a.kind != b.kind || std::abs(a.radius - b.radius) > samePlace || a.points.size() != b.points.size())
        return false;
    return std::all_of(a.points.begin(), a.points.end(), [&](const Vec3& p) {
        return std::any_of(b.points.begin(), b.points.end(),
                           [&](const Vec3& q) { return (p - q).squaredNorm() < samePlace * samePlace; });
    });
}

} // namespace

bool nearerAsShown(const Motion& motion, const std::vector<ConvexSolid>& moving,
                   const std::vector<ConvexSolid>& fixed, double wanted) {
    const Pose pose = shownPose(motion);
    for (const ConvexSolid& m : moving) {
        const ConvexSolid placed = placedBy(pose, m);
        const Box3 own = bounds(placed);
        for (const ConvexSolid& f : fixed) {
            const Box3 box = bounds(f);
            if ((box.min - own.max).cwiseMax(own.min - box.max).cwiseMax(0).norm() > wanted) continue;
            const Nearest n = nearest(placed, f);
            if (n.meets ? n.depth > samePlace || wanted > 0 : n.distance < wanted) return true;
        }
    }
    return false;
}

std::optional<double> turnBetween(const Move& move, const std::vector<ConvexSolid>& from,
                                  const std::vector<ConvexSolid>& to) {
    if (move.slides || from.empty() || from.size() != to.size()) return {};
    const auto across = [&](const Vec3& p) -> Vec3 {
        return p - move.at - (p - move.at).dot(move.axis) * move.axis;
    };
    const Vec3 a = across(middleOf(from)), b = across(middleOf(to));
    if (a.norm() < 1 || std::abs(a.norm() - b.norm()) > samePlace) return {};
    const double turn = std::atan2(move.axis.dot(a.cross(b)), a.dot(b));
    const Pose pose = poseAt({{}, {move}}, {turn});
    for (const ConvexSolid& s : from) {
        const ConvexSolid placed = placedBy(pose, s);
        if (std::none_of(to.begin(), to.end(), [&](const ConvexSolid& t) { return sameSolid(placed, t); }))
            return {};
    }
    return turn;
}

} // namespace slab
