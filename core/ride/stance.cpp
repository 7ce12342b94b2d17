#include "core/ride/stance.h"
#include "core/geometry/golden_section.h"
#include "core/geometry/polygon.h"
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ride {

namespace {

constexpr double pi = std::numbers::pi;

/// Loads of least Σ N² on the wheels of `members` for a total of 1 at `at`; none if they cannot balance it.
std::vector<double> balanced(const std::vector<Vec2>& wheels, unsigned members, const Vec2& at) {
    Mat3 sum = Mat3::Zero();
    for (std::size_t i = 0; i < wheels.size(); ++i)
        if (members >> i & 1U) {
            const Vec3 p(1, wheels[i].x(), wheels[i].y());
            sum += p * p.transpose();
        }
    const Vec3 want(1, at.x(), at.y());
    Eigen::CompleteOrthogonalDecomposition<Mat3> solver;
    solver.setThreshold(1e-10);
    solver.compute(sum);
    const Vec3 q = solver.solve(want);
    if (!((sum * q - want).norm() <= 1e-9)) return {};
    std::vector<double> loads(wheels.size(), 0);
    for (std::size_t i = 0; i < wheels.size(); ++i)
        if (members >> i & 1U) {
            loads[i] = q.dot(Vec3(1, wheels[i].x(), wheels[i].y()));
            if (loads[i] < -1e-12) return {};
            loads[i] = std::max(loads[i], 0.0);
        }
    return loads;
}

/// Shares of a load at `at`: the optimum of the least squares has some set of carrying wheels, so each is
/// tried.
std::vector<double> shares(const std::vector<Vec2>& wheels, const Vec2& at) {
    std::vector<double> best;
    double least = std::numeric_limits<double>::infinity();
    const unsigned all = (1U << wheels.size()) - 1;
    for (unsigned members = all; members > 0; --members) {
        const std::vector<double> loads = balanced(wheels, members, at);
        if (loads.empty()) continue;
        if (members == all) return loads;
        double energy = 0;
        for (double n : loads) energy += n * n;
        if (energy < least - 1e-14) {
            least = energy;
            best = loads;
        }
    }
    return best;
}

} // namespace

Expected<void> checkStance(const Stance& stance) {
    if (stance.wheels.size() < 3 || stance.wheels.size() > 12)
        return fail("wheels-few", "It stands on three to twelve wheels.", {},
                    "Give each wheel's contact point.");
    bool finite = std::isfinite(stance.mass) && stance.centre.allFinite();
    for (const Vec2& wheel : stance.wheels) finite = finite && wheel.allFinite();
    if (!finite || !(stance.mass > 0) || !(stance.centre.z() > 0))
        return fail("out-of-range", "Mass and height of the centre of mass must be above 0.", {},
                    "Give masses and places of all parts.");
    const Ring hull = convexHull(stance.wheels);
    const Vec2 size = bounds(stance.wheels).size();
    if (hull.size() < 3 || !(signedArea(hull) > 1e-9 * size.squaredNorm()))
        return fail("wheels-in-line", "All wheels stand in one line.", {}, "Move a wheel out of the line.");
    return {};
}

Vec3 upOn(const Slope& slope) {
    return {std::sin(slope.angle) * std::cos(slope.heading), std::sin(slope.angle) * std::sin(slope.heading),
            std::cos(slope.angle)};
}

Expected<Vec3> pullOn(const Slope& slope, const Turn& turn) {
    if (!(slope.angle >= 0 && slope.angle < pi / 2) || !std::isfinite(slope.heading) || !(turn.speed >= 0) ||
        !std::isfinite(turn.speed) || std::isnan(turn.radius) || turn.radius == 0)
        return fail("out-of-range",
                    "The slope must be in 0° to under 90°, the speed 0 or more, the turn wider than 0.", {},
                    "Give a slope, a speed and a radius in range.");
    const Vec3 up = upOn(slope);
    const Vec3 inward = (Vec3::UnitY() - up.y() * up).normalized();
    return Vec3(-gravity * up - turn.speed * turn.speed / turn.radius * inward);
}

Expected<WheelLoads> wheelLoads(const Stance& stance, const Vec3& pull) {
    if (const auto sound = checkStance(stance); !sound) return Unexpected(sound.error());
    if (!pull.allFinite() || !(pull.z() < 0))
        return fail("out-of-range", "Nothing presses the wheels on the ground.", {}, "Check slope and turn.");
    // where the line of the pull through the centre of mass meets the plane
    const Vec2 at = stance.centre.head<2>() - pull.head<2>() * (stance.centre.z() / pull.z());
    const Vec2 middle = centroid({convexHull(stance.wheels), {}});
    double size = 0;
    for (const Vec2& wheel : stance.wheels) size = std::max(size, (wheel - middle).norm());
    std::vector<Vec2> wheels;
    for (const Vec2& wheel : stance.wheels) wheels.emplace_back((wheel - middle) / size);
    const std::vector<double> share = shares(wheels, (at - middle) / size);
    WheelLoads out;
    out.stands = !share.empty();
    for (double n : share) {
        out.loads.push_back(n * stance.mass * -pull.z() / 1000);
        out.lifted.push_back(n < 1e-12);
    }
    return out;
}

Expected<std::vector<LoadRange>> loadsOverHeadings(const Stance& stance, double angle) {
    const auto at = [&](double heading) -> Expected<WheelLoads> {
        const auto pull = pullOn({angle, heading});
        return pull ? wheelLoads(stance, *pull) : Expected<WheelLoads>(Unexpected(pull.error()));
    };
    constexpr int turns = 360;
    std::vector<std::vector<double>> sampled;
    for (int k = 0; k < turns; ++k) {
        const auto loads = at(k * 2 * pi / turns);
        if (!loads) return Unexpected(loads.error());
        if (!loads->stands)
            return fail("tips", "It tips over on this slope.", {},
                        "Lower the centre of mass or widen the wheels.");
        sampled.push_back(loads->loads);
    }
    std::vector<LoadRange> out(stance.wheels.size());
    for (std::size_t i = 0; i < out.size(); ++i)
        for (double sign : {1.0, -1.0}) {
            int best = 0;
            for (int k = 1; k < turns; ++k)
                if (sign * sampled[static_cast<std::size_t>(k)][i] <
                    sign * sampled[static_cast<std::size_t>(best)][i])
                    best = k;
            double heading = best * 2 * pi / turns;
            const auto value = [&](double h) {
                const auto loads = at(h);
                return loads && loads->stands ? sign * loads->loads[i]
                                              : std::numeric_limits<double>::infinity();
            };
            double least = value(heading);
            const auto kept = [&](double h) {
                const double v = value(h);
                if (v < least) least = v, heading = h;
                return v;
            };
            const double step = 2 * pi / turns, from = heading - step;
            (void)leastBetween(kept, from, from + 2 * step, 1e-6);
            (sign > 0 ? out[i].least : out[i].most) = sign * least;
            (sign > 0 ? out[i].leastHeading : out[i].mostHeading) = std::fmod(heading + 2 * pi, 2 * pi);
        }
    return out;
}

Expected<Rating> ratedLoad(double load, double rated) {
    if (!(load >= 0) || !(rated > 0) || !std::isfinite(load) || !std::isfinite(rated))
        return fail("out-of-range", "Load and rated load must be known.", {},
                    "Read the rated load off the donor's plate.");
    return Rating{load, rated};
}

} // namespace slab::ride
