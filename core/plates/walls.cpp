#include "core/plates/walls.h"
#include <algorithm>
#include <limits>

namespace slab::plates {

const std::string* openingAt(const Walls& walls, int plane, const Vec3& point) {
    const auto found = walls.find(plane);
    if (found == walls.end()) return nullptr;
    const std::string* best = nullptr;
    double nearest = std::numeric_limits<double>::max();
    for (const Wall& wall : found->second) {
        // Seen along the walls the strip is a segment.
        const auto flat = [&](const Vec3& v) { return Vec3(v - wall.along * wall.along.dot(v)); };
        const Vec3 span = flat(wall.to - wall.from), reach = flat(point - wall.from);
        const double length = span.squaredNorm();
        const double share = length > 0 ? std::clamp(reach.dot(span) / length, 0.0, 1.0) : 0.0;
        const double distance = (reach - share * span).norm();
        if (distance >= nearest - 1e-9) continue;
        nearest = distance;
        best = &wall.opening;
    }
    return best;
}

} // namespace slab::plates
