#include "core/frames/cleats.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// What of a convex ring lies left of the line through `at` along `along`.
Ring leftOf(const Ring& ring, const Vec2& at, const Vec2& along) {
    Ring kept;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
        const double hp = cross2(along, p - at), hq = cross2(along, q - at);
        if (hp >= 0) kept.push_back(p);
        if ((hp > 0 && hq < 0) || (hp < 0 && hq > 0)) kept.push_back(p + (q - p) * (hp / (hp - hq)));
    }
    return kept;
}

/// How far the section lies along a direction from the corner, on that line.
double reachOn(const Ring& ring, const Vec2& direction) {
    double reach = 0;
    for (const Vec2& p : ring)
        if (std::abs(cross2(direction, p)) < 1e-9 * (1 + p.norm())) reach = std::max(reach, direction.dot(p));
    return reach;
}

} // namespace

Expected<CleatSection> cleatSection(double width, double depth, double dihedral) {
    if (!(dihedral > 0) || !(dihedral < std::numbers::pi) || !(width > 0) || !(depth > 0))
        return fail("cleat-corner", "A stick needs an inside corner below 180° and a size above zero.", {},
                    "Choose another joint, or correct width and depth.");
    const Vec2 b(std::cos(dihedral), std::sin(dihedral));
    const double lean = b.x() / b.y(); // the second face runs off by this for each mm of depth
    CleatSection section;
    Ring bar;
    if (std::abs(dihedral - std::numbers::pi / 2) < 1e-6) {
        bar = {{0, 0}, {width, 0}, {width, depth}, {0, depth}};
    } else if (lean > 0 || width + depth * lean >= width / 2) {
        const double start = std::min(0.0, depth * lean);
        bar = leftOf({{start, 0}, {start + width, 0}, {start + width, depth}, {start, depth}}, {0, 0}, -b);
        section.planed = 1;
    } else {
        const Vec2 up(std::cos(dihedral / 2), std::sin(dihedral / 2)), right(up.y(), -up.x());
        bar = {-right * width / 2, right * width / 2, right * width / 2 + up * depth,
               -right * width / 2 + up * depth};
        bar = leftOf(leftOf(bar, {0, 0}, {1, 0}), {0, 0}, -b);
        section.planed = 2;
    }
    section.outline = std::move(bar);
    section.onA = reachOn(section.outline, {1, 0});
    section.onB = reachOn(section.outline, b);
    return section;
}

} // namespace slab
