#include "core/mechanisms/long_pieces.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double longReach = 4000, firstLength = 1000; ///< mm

void cutAcross(const ConvexSolid& tube, const Vec3& at, std::vector<ConvexSolid>& out) {
    const Vec3 &from = tube.points[0], &to = tube.points[1];
    const double length = (to - from).norm();
    const Vec3 along = (to - from) / length;
    const double foot = along.dot(at - from); // nearest to the axis' point
    std::vector<double> ends{0, length};
    for (double d = firstLength; d < std::max(std::abs(foot), std::abs(length - foot)); d *= 2)
        for (const double end : {foot - d, foot + d})
            if (end > 1 && end < length - 1) ends.push_back(end);
    std::sort(ends.begin(), ends.end());
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        // The ends are taken as they are: nothing of the tube is lost.
        const Vec3 low = i == 0 ? from : Vec3(from + ends[i] * along);
        const Vec3 high = i + 2 == ends.size() ? to : Vec3(from + ends[i + 1] * along);
        out.push_back(makeCylinder(low, high, tube.radius));
    }
}

} // namespace

std::vector<ConvexSolid> inShortLengths(const Motion& motion, const std::vector<ConvexSolid>& pieces) {
    if (motion.moves.empty() || motion.moves.front().slides) return pieces;
    const Vec3& at = motion.moves.front().at;
    std::vector<ConvexSolid> out;
    for (const ConvexSolid& piece : pieces) {
        const bool tube = piece.kind == ConvexSolid::Kind::cylinder && piece.points.size() == 2;
        const bool reaches = tube && std::any_of(piece.points.begin(), piece.points.end(),
                                                 [&](const Vec3& p) { return (p - at).norm() > longReach; });
        if (reaches)
            cutAcross(piece, at, out);
        else
            out.push_back(piece);
    }
    return out;
}

} // namespace slab
