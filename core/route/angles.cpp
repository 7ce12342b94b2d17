#include "core/route/angles.h"
#include "core/geometry/golden_section.h"
#include <array>
#include <cmath>
#include <numbers>

namespace slab::route {

namespace {

Unexpected angleFigures() {
    return fail("out-of-range", "A low point must lie beside the wheel and above the ground.", {},
                "Check the low point's place and the wheel's radius.");
}

/// The tangent's angle, for points outside of the wheel.
double tangent(double away, double height, double radius) {
    const double below = radius - height, reach = std::hypot(away, below);
    return std::asin(radius / reach) - std::atan2(below, away);
}

} // namespace

Expected<double> approachAngle(double ahead, double height, double radius) {
    if (!(ahead > 0) || !(height >= 0) || !(radius >= 0) || !std::isfinite(ahead + height + radius) ||
        !(std::hypot(ahead, radius - height) >= radius))
        return angleFigures();
    return tangent(ahead, height, radius);
}

Expected<double> breakoverAngle(double toRear, double toFront, double height, double radius) {
    const auto rear = approachAngle(toRear, height, radius), front = approachAngle(toFront, height, radius);
    if (!rear) return rear;
    if (!front) return front;
    return *rear + *front;
}

Expected<double> breakBetween(double before, double behind) {
    if (!std::isfinite(before) || !std::isfinite(behind)) return angleFigures();
    return std::atan(behind) - std::atan(before);
}

Expected<double> leastOverCrest(double wheelbase, double crest) {
    if (!(wheelbase > 0) || !(crest >= 0 && crest < std::numbers::pi)) return angleFigures();
    return wheelbase / 2 * std::tan(crest / 2);
}

Expected<RampAngles> rampAngles(const SideView& vehicle) {
    if (const auto sound = checkSideView(vehicle); !sound) return Unexpected(sound.error());
    const auto byX = [](const Axle& a, const Axle& b) { return a.x < b.x; };
    const Axle rear = *std::min_element(vehicle.axles.begin(), vehicle.axles.end(), byX);
    const Axle front = *std::max_element(vehicle.axles.begin(), vehicle.axles.end(), byX);
    RampAngles out{std::numbers::pi / 2, std::numbers::pi / 2, std::numbers::pi / 2, {}, {}, {}};
    constexpr double free = std::numbers::pi / 2;
    bool sound = true;
    // what lies inside of a wheel, seen from the side, is reached by nothing before the wheel is
    const auto beside = [](const Axle& a, double away, double height) {
        return away > 0 && std::hypot(away, a.radius - height) >= a.radius;
    };
    const auto least = [&](double angle, const Vec2& p, double& kept, Vec2& at) {
        if (angle < kept) kept = angle, at = p;
        return angle;
    };
    const auto meet = [&](const Vec2& p) {
        sound = sound && p.y() >= 0;
        const double ahead = p.x() - front.x, behind = rear.x - p.x();
        if (beside(front, ahead, p.y()))
            return least(tangent(ahead, p.y(), front.radius), p, out.approach, out.approachAt);
        if (beside(rear, behind, p.y()))
            return least(tangent(behind, p.y(), rear.radius), p, out.departure, out.departureAt);
        if (!beside(front, -ahead, p.y()) || !beside(rear, -behind, p.y())) return free;
        const double both = tangent(-behind, p.y(), rear.radius) + tangent(-ahead, p.y(), front.radius);
        return least(both, p, out.breakover, out.breakoverAt);
    };
    for (const Ring& chain : vehicle.undersides)
        for (std::size_t i = 0; i < chain.size(); ++i) {
            (void)meet(chain[i]);
            if (i + 1 == chain.size()) break;
            constexpr int pieces = 64; // valleys along a straight piece, refined one by one
            const auto on = [&](double t) { return meet(chain[i] + t * (chain[i + 1] - chain[i])); };
            std::array<double, pieces + 1> at{};
            for (int k = 0; k <= pieces; ++k) at[static_cast<std::size_t>(k)] = on(double(k) / pieces);
            for (std::size_t k = 0; k <= pieces; ++k)
                if ((k == 0 || at[k] <= at[k - 1]) && (k == pieces || at[k] <= at[k + 1]) && at[k] < free)
                    (void)leastBetween(on, std::max(0.0, (static_cast<double>(k) - 1) / pieces),
                                       std::min(1.0, (static_cast<double>(k) + 1) / pieces), 1e-9);
        }
    if (!sound) return angleFigures();
    return out;
}

} // namespace slab::route
