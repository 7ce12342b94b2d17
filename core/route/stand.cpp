// Where a rigid vehicle comes to stand on a profile.
#include "core/route/crossing.h"
#include <algorithm>
#include <cmath>
#include <optional>

namespace slab::route {

namespace {

constexpr double close = 1e-10; ///< mm: two wheels stand on the ground as nearly as doubles tell
constexpr double steepest = 75 * 3.14159265358979323846 / 180;

/// Two axles on the ground, the vehicle's origin over x: how far the front one is off the ground with the
/// rear one on it, at a pitch. Falls as the pitch rises.
struct Pair {
    const GroundProfile& ground;
    Axle rear, front;
    double x;

    [[nodiscard]] double centreX(const Axle& a, double pitch) const {
        return x + a.x * std::cos(pitch) - a.radius * std::sin(pitch);
    }
    [[nodiscard]] double wheelHeight(const Axle& a, double pitch) const {
        return wheelHeightOn(ground, a.radius, centreX(a, pitch));
    }
    [[nodiscard]] double mismatch(double pitch) const {
        const double sine = std::sin(pitch), cosine = std::cos(pitch);
        const auto over = [&](const Axle& a) {
            return wheelHeightOn(ground, a.radius, x + a.x * cosine - a.radius * sine);
        };
        return over(front) - over(rear) - (front.x - rear.x) * sine - (front.radius - rear.radius) * cosine;
    }
    /// The pitch at which both stand; none if there is none under `steepest`.
    [[nodiscard]] std::optional<double> pitch(double near) const {
        double low = near - 1e-3, high = near + 1e-3, wide = 1e-3;
        double atLow = mismatch(low), atHigh = mismatch(high);
        while (!(atLow >= 0 && atHigh <= 0)) {
            if (wide > 2 * steepest) return std::nullopt;
            wide *= 4;
            if (atLow < 0) low = std::max(near - wide, -steepest), atLow = mismatch(low);
            if (atHigh > 0) high = std::min(near + wide, steepest), atHigh = mismatch(high);
        }
        return root(low, high, atLow, atHigh);
    }
    /// Regula falsi that never keeps one end for long (Illinois rule), halved where the ground jumps.
    [[nodiscard]] double root(double low, double high, double atLow, double atHigh) const {
        for (int k = 0; k < 200 && high - low > 1e-15 + 1e-14 * std::abs(low); ++k) {
            double middle = k % 3 == 2 || atLow == atHigh ? (low + high) / 2
                                                          : low + atLow / (atLow - atHigh) * (high - low);
            middle = std::clamp(middle, low, high);
            const double at = mismatch(middle);
            if (std::abs(at) < close) return middle;
            if (at > 0) {
                if (middle == low) return middle;
                low = middle, atLow = at, atHigh /= 2;
            } else {
                if (middle == high) return middle;
                high = middle, atHigh = at, atLow /= 2;
            }
        }
        return (low + high) / 2;
    }
};

/// Set down on two axles; gaps of the others, and whether the centre is between the two contacts.
std::optional<SidePose> onPair(const GroundProfile& ground, const SideView& vehicle, const Pair& pair,
                               double near) {
    const auto pitch = pair.pitch(near);
    if (!pitch) return std::nullopt;
    SidePose pose;
    pose.pitch = *pitch;
    const double sine = std::sin(*pitch), cosine = std::cos(*pitch);
    pose.at.x() = pair.x;
    pose.at.y() = pair.wheelHeight(pair.rear, *pitch) - pair.rear.x * sine - pair.rear.radius * cosine;
    for (const Axle& a : vehicle.axles) {
        const Vec2 centre = pose.place({a.x, a.radius});
        pose.gaps.push_back(centre.y() - wheelHeightOn(ground, a.radius, centre.x()));
    }
    const double centre = pose.place(vehicle.centre).x();
    const auto contact = [&](const Axle& a) {
        return wheelOn(ground, a.radius, pose.place({a.x, a.radius}).x()).contact.x();
    };
    pose.tips = centre < contact(pair.rear) || centre > contact(pair.front);
    return pose;
}

} // namespace

Expected<void> checkSideView(const SideView& vehicle) {
    if (vehicle.axles.size() < 2 || vehicle.axles.size() > 6)
        return fail("axles-few", "It stands on two to six axles.", {}, "Give each axle's place.");
    bool finite = vehicle.centre.allFinite();
    for (const Ring& chain : vehicle.undersides)
        for (const Vec2& p : chain) finite = finite && p.allFinite();
    for (const Axle& a : vehicle.axles)
        finite = finite && std::isfinite(a.x) && a.radius >= 0 && a.radius < 1e6;
    if (!finite)
        return fail("out-of-range", "A figure of the vehicle is not in its range.", {},
                    "Check axles and undersides.");
    for (std::size_t i = 0; i < vehicle.axles.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (std::abs(vehicle.axles[i].x - vehicle.axles[k].x) < 1e-6)
                return fail("axles-alike", "Two axles stand at the same place.",
                            "axle " + std::to_string(i + 1), "Make them one axle.");
    return {};
}

Expected<SidePose> standAt(const GroundProfile& ground, const SideView& vehicle, double x, double near) {
    if (const auto sound = checkProfile(ground); !sound) return Unexpected(sound.error());
    if (const auto sound = checkSideView(vehicle); !sound) return Unexpected(sound.error());
    std::vector<Axle> axles = vehicle.axles;
    std::sort(axles.begin(), axles.end(), [](const Axle& a, const Axle& b) { return a.x < b.x; });
    std::optional<SidePose> best;
    double deepest = 0;
    for (std::size_t i = 0; i < axles.size(); ++i)
        for (std::size_t k = i + 1; k < axles.size(); ++k) {
            const auto pose = onPair(ground, vehicle, {ground, axles[i], axles[k], x}, near);
            if (!pose) continue;
            // rounding leaves the pair itself within 1e-9 of the ground
            const double sunk = std::min(0.0, *std::min_element(pose->gaps.begin(), pose->gaps.end()) + 1e-7);
            const bool better = !best || (sunk == 0 && deepest < 0) ||
                                (sunk == 0 && deepest == 0 && best->tips && !pose->tips) ||
                                (sunk < 0 && sunk > deepest);
            if (better) best = pose, deepest = sunk;
        }
    if (!best || deepest < 0)
        return fail("no-stance", "The vehicle cannot stand on this ground.",
                    "at " + std::to_string(x) + " mm",
                    "Check steps and slopes of the ground, and the wheels' places.");
    for (double& gap : best->gaps) gap = std::max(gap, 0.0);
    return *best;
}

std::vector<GroundGap> gapsUnder(const GroundProfile& ground, const SideView& vehicle, const SidePose& pose) {
    std::vector<GroundGap> out;
    const Eigen::Matrix2d turned = pose.turned();
    const auto place = [&](const Vec2& p) { return Vec2(pose.at + turned * p); };
    for (const Ring& chain : vehicle.undersides) {
        GroundGap least;
        least.chain = static_cast<int>(out.size());
        least.x = pose.at.x();
        const auto meet = [&](double height, const Vec2& at) {
            if (height < least.height) least.height = height, least.at = at;
        };
        Vec2 b = chain.empty() ? Vec2(0, 0) : place(chain.front());
        for (std::size_t i = 0; i < chain.size(); ++i) {
            const Vec2 a = b;
            meet(a.y() - groundAt(ground, a.x()), chain[i]);
            if (i + 1 == chain.size()) break;
            b = place(chain[i + 1]);
            const double low = std::min(a.x(), b.x()), high = std::max(a.x(), b.x());
            const auto& points = ground.points;
            auto p = std::lower_bound(points.begin(), points.end(), low,
                                      [](const Vec2& q, double v) { return q.x() < v; });
            for (; p != points.end() && p->x() < high; ++p) {
                const double share = (p->x() - a.x()) / (b.x() - a.x());
                meet((1 - share) * a.y() + share * b.y() - p->y(),
                     chain[i] + share * (chain[i + 1] - chain[i]));
            }
        }
        out.push_back(least);
    }
    return out;
}

GroundGap gapUnder(const GroundProfile& ground, const SideView& vehicle, const SidePose& pose) {
    GroundGap least;
    for (const GroundGap& gap : gapsUnder(ground, vehicle, pose))
        if (gap.height < least.height) least = gap;
    return least;
}

} // namespace slab::route
