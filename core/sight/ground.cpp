// Maps and figures read off what is hidden.
#include "core/sight/ranges.h"
#include "core/sight/sight.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::sight {

namespace {

constexpr double turn = 2 * std::numbers::pi;
constexpr int areaParts = 4; ///< of a direction, for the area: slits are narrow

Unexpected sightFigures() {
    return fail("out-of-range", "A figure is not in its range.", {},
                "Check heights, distances, speeds and counts.");
}

} // namespace

double BlindMap::azimuth(int direction) const {
    return turn * (direction + 0.5) / directions;
}
double BlindMap::distance(int ring) const {
    return reach * (ring + 0.5) / rings;
}

Expected<BlindMap> blindMap(const Sight& sight, double reach, int directions, int rings) {
    if (!(reach > 0) || !std::isfinite(reach) || directions < 8 || directions > 7200 || rings < 1 ||
        rings > 2000)
        return sightFigures();
    BlindMap out{directions, rings, reach, {}, {}, 0};
    for (int d = 0; d < directions; ++d) {
        const std::vector<Range> hidden = sight.blindGround(out.azimuth(d));
        out.nearest.push_back(sight.nearestSeen(out.azimuth(d)));
        for (int k = 0; k < areaParts; ++k) {
            const double azimuth = turn * (d + (k + 0.5) / areaParts) / directions;
            for (const Range& range : sight.blindGround(azimuth)) {
                const double from = std::min(range.from, reach), to = std::min(range.to, reach);
                out.blindArea += (to * to - from * from) / 2 * (turn / directions / areaParts);
            }
        }
        for (int r = 0; r < rings; ++r) {
            const double at = out.distance(r);
            out.blind.push_back(std::any_of(hidden.begin(), hidden.end(), [&](const Range& range) {
                return at >= range.from && at <= range.to;
            }));
        }
    }
    return out;
}

namespace {

/// Asks at even steps about a direction, and at both ends. @return the greatest
template <class F>
SeenAhead worstOver(double azimuth, double half, double step, const F& distanceAt) {
    SeenAhead worst{-1, azimuth};
    const auto meet = [&](double at) {
        const double distance = distanceAt(at);
        if (distance > worst.distance) worst = {distance, at};
    };
    const int count = static_cast<int>(std::floor(half / step));
    for (int k = -count; k <= count; ++k) meet(azimuth + k * step);
    meet(azimuth - half);
    meet(azimuth + half);
    return worst;
}

} // namespace

Expected<SeenAhead> nearestSeenAhead(const std::vector<Sight>& eyes, double azimuth, double half, double step,
                                     double front, double shortest) {
    if (eyes.empty() || !std::isfinite(azimuth) || !(half >= 0 && half < turn / 4) || !(step > 0) ||
        !(half / step < 1e6) || !(front >= 0) || !(shortest >= 0))
        return sightFigures();
    return worstOver(azimuth, half, step, [&](double at) {
        const double along = std::cos(at - azimuth);
        double distance = std::numeric_limits<double>::infinity();
        for (const Sight& eye : eyes)
            distance = std::min(distance, along * eye.nearestSeen(at, front / along, shortest / along));
        return distance;
    });
}

Expected<SeenAhead> nearestSeenAhead(const Sight& sight, double azimuth, double half, double step,
                                     double beyond) {
    if (!std::isfinite(azimuth) || !(half >= 0 && half <= turn / 2) || !(step > 0) || !(half / step < 1e6) ||
        !(beyond >= 0))
        return sightFigures();
    return worstOver(azimuth, half, step, [&](double at) { return sight.nearestSeen(at, beyond); });
}

HorizontalField horizontalField(const std::vector<Sight>& eyes) {
    std::vector<Range> all;
    for (const Sight& eye : eyes)
        for (const Range& range : eye.openHorizon()) all.push_back(range);
    const auto open = joined(std::move(all));
    HorizontalField out;
    for (const Range& range : open) out.total += range.size();
    if (open.empty()) return out;
    if (open.front().from == 0) out.port = std::min(open.front().to, turn / 2);
    if (open.back().to >= turn) out.starboard = std::min(turn - open.back().from, turn / 2);
    return out;
}

HorizontalField horizontalField(const Sight& sight) {
    return horizontalField(std::vector<Sight>{sight});
}

Expected<double> groundOverEdge(double eye, double ahead, double edge) {
    if (!(edge >= 0) || !(eye > edge) || !(ahead >= 0) || !std::isfinite(eye + ahead)) return sightFigures();
    return ahead * eye / (eye - edge);
}

Expected<double> stoppingDistance(double speed, double reaction, double braking) {
    if (!(speed >= 0) || !(reaction >= 0) || !(braking > 0) || !std::isfinite(speed + reaction + braking))
        return sightFigures();
    return speed * reaction + speed * speed / (2 * braking);
}

Expected<double> speedToStopWithin(double distance, double reaction, double braking) {
    if (!(distance >= 0) || !(reaction >= 0) || !(braking > 0) ||
        !std::isfinite(distance + reaction + braking))
        return sightFigures();
    const double lost = braking * reaction;
    return std::sqrt(lost * lost + 2 * braking * distance) - lost;
}

} // namespace slab::sight
