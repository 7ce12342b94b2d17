#include "core/drawing/label_spot.h"
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace slab {
namespace {

double distanceTo(const Ring& ring, const Vec2& p) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2 along = ring[(i + 1) % ring.size()] - a;
        const double length2 = along.squaredNorm();
        const double t = length2 > 0 ? std::clamp((p - a).dot(along) / length2, 0.0, 1.0) : 0;
        least = std::min(least, (a + t * along - p).norm());
    }
    return least;
}

/// Distance to the border, negative outside.
double room(const Polygon& area, const Vec2& p) {
    double least = distanceTo(area.outer, p);
    for (const Ring& hole : area.holes) least = std::min(least, distanceTo(hole, p));
    return contains(area, p) ? least : -least;
}

Polygon squeezed(const Polygon& area, double x, double y) {
    const auto squeeze = [&](Ring ring) {
        for (Vec2& p : ring) p = Vec2(p.x() * x, p.y() * y);
        return ring;
    };
    Polygon result{squeeze(area.outer), {}};
    for (const Ring& hole : area.holes) result.holes.push_back(squeeze(hole));
    return result;
}

/// The point with most room, and that room.
std::pair<Vec2, double> roomiest(const Polygon& area) {
    constexpr int cells = 24;
    const Box2 box = bounds(area.outer);
    const Vec2 step = box.size() / cells;
    const Vec2 centre = (box.min + box.max) / 2;
    const double halfDiagonal = std::max(1e-12, box.size().norm() / 2);
    std::pair<Vec2, double> best{box.min, -std::numeric_limits<double>::infinity()};
    double bestWorth = best.second;
    const auto offer = [&](const Vec2& p) {
        const double found = room(area, p);
        // Where there is as much room elsewhere, the middle looks best.
        const double worth = found > 0 ? found * (1 - 0.15 * (p - centre).norm() / halfDiagonal) : found;
        if (worth <= bestWorth + 1e-9) return;
        best = {p, found};
        bestWorth = worth;
    };
    for (int i = 0; i < cells; ++i)
        for (int j = 0; j < cells; ++j) offer(box.min + Vec2(step.x() * (i + 0.5), step.y() * (j + 0.5)));
    Vec2 reach = step / 2;
    for (int round = 0; round < 8; ++round, reach /= 2) {
        const Vec2 from = best.first;
        for (int i = -1; i <= 1; ++i)
            for (int j = -1; j <= 1; ++j) offer(from + Vec2(reach.x() * i, reach.y() * j));
    }
    return best;
}

} // namespace

Spot labelSpot(const Polygon& area, double aspect) {
    if (area.outer.size() < 3 || !(aspect > 0)) return {};
    // A box of the aspect becomes a square when x is squeezed; a circle of radius r holds a square of side
    // r√2.
    const auto level = roomiest(squeezed(area, 1 / aspect, 1));
    const auto upright = roomiest(squeezed(area, 1, 1 / aspect));
    const Spot flat{Vec2(level.first.x() * aspect, level.first.y()),
                    std::max(0.0, level.second) * std::sqrt(2.0), 0};
    const Spot onEnd{Vec2(upright.first.x(), upright.first.y() * aspect),
                     std::max(0.0, upright.second) * std::sqrt(2.0), std::numbers::pi / 2};
    return onEnd.height > 1.5 * flat.height ? onEnd : flat;
}

double readable(const Vec2& along) {
    double turn = std::atan2(along.y(), along.x());
    if (turn > std::numbers::pi / 2 + 1e-9) turn -= std::numbers::pi;
    if (turn <= -std::numbers::pi / 2 + 1e-9) turn += std::numbers::pi;
    return turn;
}

} // namespace slab
