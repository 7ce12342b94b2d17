#include "core/plates/behind.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double justTouch = 0.01; ///< mm: what only touches the face is not in the way

std::vector<Polygon> grown(const std::vector<Polygon>& all, double by) {
    std::vector<Polygon> out;
    for (const Polygon& p : all) {
        std::vector<Polygon> more = offset(p, by);
        std::move(more.begin(), more.end(), std::back_inserter(out));
    }
    return unite(out);
}

bool near(const Box3& a, const Box3& b, double reach) {
    return (a.min - b.max).maxCoeff() <= reach && (b.min - a.max).maxCoeff() <= reach;
}

} // namespace

Ring shadowOf(const ConvexSolid& solid, const Frame& frame, double low, double high) {
    std::vector<Vec3> local;
    for (const Vec3& p : solid.points) local.push_back(frame.toLocal(p));
    std::vector<Vec2> seen;
    for (std::size_t i = 0; i < local.size(); ++i) {
        const Vec3& p = local[i];
        if (p.z() >= low && p.z() <= high) seen.push_back(p.head<2>());
        // A section of a hull is the hull of the sections of all its chords.
        for (std::size_t k = i + 1; k < local.size(); ++k)
            for (const double level : {low, high}) {
                const Vec3& q = local[k];
                if ((p.z() < level) == (q.z() < level)) continue;
                seen.push_back((p + (q - p) * ((level - p.z()) / (q.z() - p.z()))).head<2>());
            }
    }
    Ring ring = convexHull(std::move(seen));
    if (ring.size() < 3 || std::abs(signedArea(ring)) < 1e-9) return {};
    return ring;
}

std::vector<Polygon> freeBehind(const Plate& host, const PlateList& others, const BehindRules& rules) {
    if (host.boundary.inner.size() < 3) return {};
    std::vector<Polygon> openings, taken;
    for (const PanelLoop& hole : host.holes)
        if (hole.inner.size() >= 3) openings.push_back({reversed(hole.inner), {}});
    const Box3 here = bounds(host.solid);
    const double top = -host.thickness - justTouch, low = -host.thickness - rules.depth + justTouch;
    for (const Plate& other : others) {
        if (other.name == host.name || !near(here, bounds(other.solid), rules.depth)) continue;
        if (std::find(rules.except.begin(), rules.except.end(), other.name) != rules.except.end()) continue;
        for (const ConvexSolid& cell : other.cells)
            if (Ring ring = shadowOf(cell, host.frame, low, top); !ring.empty())
                taken.push_back({std::move(ring), {}});
    }
    std::vector<Polygon> free{{host.boundary.inner, {}}};
    if (!openings.empty()) free = subtract(free, grown(openings, rules.gap));
    if (!taken.empty()) free = subtract(free, grown(unite(taken), rules.gap));
    return free;
}

} // namespace slab::plates
