#include "core/plates/prism_cut.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

/// A side of either lies between them.
bool apart(const PlaneTable& planes, const Cell& cell, const Prism& prism) {
    const auto beyond = [&](const Half& h) { return sideOf(planes, cell, h) > 0; };
    if (std::any_of(prism.sides.begin(), prism.sides.end(), beyond)) return true;
    return std::any_of(cell.facets.begin(), cell.facets.end(), [&](const Cell::Facet& f) {
        if (std::abs(planes.outward(f.half).dot(prism.direction)) > 1e-12) return false;
        return std::all_of(prism.corners.begin(), prism.corners.end(),
                           [&](const Vec3& p) { return planes.outside(f.half, p) > -planes.eps(); });
    });
}

} // namespace

std::vector<Half> Prism::halves() const {
    std::vector<Half> all = sides;
    all.insert(all.end(), ends.begin(), ends.end());
    return all;
}

double subtract(const PlaneTable& planes, const Cell& cell, const Prism& prism, Cells& out) {
    if (apart(planes, cell, prism)) {
        out.push_back(cell);
        return 0;
    }
    constexpr std::size_t few = 4;
    if (!prism.ends.empty() || prism.sides.size() <= few) return subtract(planes, cell, prism.halves(), out);
    // What lies outside side i and inside all before it is already bounded by side i - 1 and the first side:
    // the sides turn one way, so those between add nothing. Each piece is then cut from the cell itself, not
    // from a rest with as many facets as sides went before.
    const std::size_t begin = out.size();
    const auto& sides = prism.sides;
    double left = 0;
    for (std::size_t i = 0; i < sides.size(); ++i) {
        if (sideOf(planes, cell, sides[i]) < 0) continue;
        Cell outer = clipped(planes, cell, sides[i].other());
        if (i > 0) outer = clipped(planes, outer, sides[i - 1]);
        if (i > 1) outer = clipped(planes, outer, sides.front());
        const double size = volume(outer);
        if (size <= noiseVolume) continue;
        left += size;
        out.push_back(std::move(outer));
    }
    const double taken = volume(cell) - left;
    constexpr double sure = 1e-3; // mm³, far above the rounding of a sum of volumes
    if (taken > sure) return taken;
    out.resize(begin);
    return subtract(planes, cell, prism.halves(), out);
}

} // namespace slab::plates
