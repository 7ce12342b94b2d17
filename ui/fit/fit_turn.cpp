#include "ui/fit/fit_turn.h"
#include "core/mechanisms/shown.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// Pixels that the grabbed point runs for each radian.
Vec2 runOf(const TurnNow& turn, const ViewCamera& camera, const Vec3& grabbed) {
    constexpr double little = 1e-3; // radians
    const Vec3 arm = grabbed - turn.at;
    const Vec3 moved = turn.at + Eigen::AngleAxisd(little, turn.axis) * arm;
    return (camera.toScreen(moved) - camera.toScreen(grabbed)).head<2>() / little;
}

/// Where the ray through a pixel meets the plane that the grabbed point turns in.
std::optional<Vec3> onCircle(const TurnNow& turn, const ViewCamera& camera, const Vec3& grabbed,
                             const Vec2& px) {
    const auto ray = camera.ray(px.x(), px.y());
    const double slope = turn.axis.dot(ray.direction);
    constexpr double edgeOn = 0.25; // the circle is seen nearly as a line
    if (std::abs(slope) < edgeOn) return std::nullopt;
    return ray.origin + ray.direction * (turn.axis.dot(grabbed - ray.origin) / slope);
}

} // namespace

namespace {

/// A drum is round: it is swept as if it stood still, and turns with its table all the same. -1 = no turn.
int ownTurn(const MechanismSet& set, const std::string& mechanism) {
    for (std::size_t i = 0; i < set.motions.size(); ++i)
        if (set.motions[i].mechanism == mechanism && set.motions[i].moves.size() == 1)
            return static_cast<int>(i);
    return -1;
}

} // namespace

bool isMechanismSolid(const Evaluation& evaluation, const std::string& name) {
    if (!evaluation.mechanisms) return false;
    const std::vector<ShownSolid> shown = shownSolids(*evaluation.mechanisms);
    return std::any_of(shown.begin(), shown.end(), [&](const ShownSolid& s) { return s.name == name; });
}

std::vector<TurnNow> turnsOfPart(const Project& project, const MechanismSet& set, const std::string& name) {
    int motion = -1;
    if (const CarriedPlates* carried = carriedWith(set, name)) motion = carried->motion;
    for (const MovingSolid& solid : set.solids)
        if (motion < 0 && solid.name == name)
            motion = solid.motion >= 0 ? solid.motion : ownTurn(set, solid.mechanism);
    if (motion < 0 || motion >= static_cast<int>(set.motions.size())) return {};
    return turnsOf(project, set.motions[static_cast<std::size_t>(motion)]);
}

std::size_t followed(const std::vector<TurnNow>& turns, const ViewCamera& camera, const Vec3& grabbed,
                     const Vec2& by) {
    std::size_t best = 0;
    double most = -1;
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const Vec2 run = runOf(turns[i], camera, grabbed);
        const double along = run.norm() > 1e-6 ? std::abs(run.normalized().dot(by)) : 0;
        if (along > most + 1e-9) most = along, best = i;
    }
    return best;
}

double turnOnScreen(const TurnNow& turn, const ViewCamera& camera, const Vec3& grabbed, const Vec2& from,
                    const Vec2& to) {
    const auto a = onCircle(turn, camera, grabbed, from), b = onCircle(turn, camera, grabbed, to);
    const Vec3 foot = turn.at + turn.axis * turn.axis.dot(grabbed - turn.at);
    if (a && b) {
        const Vec3 u = *a - foot, v = *b - foot;
        if (u.norm() > 1e-6 && v.norm() > 1e-6) return std::atan2(turn.axis.dot(u.cross(v)), u.dot(v));
    }
    const Vec2 run = runOf(turn, camera, grabbed);
    return run.squaredNorm() > 1e-9 ? run.dot(to - from) / run.squaredNorm() : 0;
}

} // namespace slab::ui
