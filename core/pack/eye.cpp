#include "core/pack/eye.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double degree = std::numbers::pi / 180;
/// Usual: from the side as much as from ahead, and from rather high above.
constexpr double usualAcross = 45, usualHeight = 32.5;
/// Further round, or lower, the front would no longer lie at the lower left.
constexpr double leastAcross = 20, mostAcross = 70, leastHeight = 20, mostHeight = 50, step = 2.5;
constexpr double enough = 0.25; ///< a board's height on the picture over its own

Vec3 towards(double across, double height) {
    return {std::cos(height * degree) * std::cos(across * degree),
            std::cos(height * degree) * std::sin(across * degree), std::sin(height * degree)};
}

} // namespace

Eye eyeFor(const std::vector<Vec3>& normals) {
    Vec3 best = towards(usualAcross, usualHeight);
    double most = -1, least = 0;
    for (double across = leastAcross; across <= mostAcross; across += step)
        for (double height = leastHeight; height <= mostHeight; height += step) {
            const Vec3 to = towards(across, height);
            double shows = enough;
            for (const Vec3& normal : normals) shows = std::min(shows, std::abs(normal.dot(to)));
            const double off = std::hypot(across - usualAcross, height - usualHeight);
            constexpr double same = 1e-9;
            if (shows < most - same || (shows <= most + same && off >= least)) continue;
            most = shows;
            least = off;
            best = to;
        }
    Eye eye;
    eye.to = best;
    eye.right = Vec3::UnitZ().cross(best).normalized();
    eye.up = best.cross(eye.right);
    return eye;
}

} // namespace slab
