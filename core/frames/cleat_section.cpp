#include "core/frames/cleats.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// What of a convex ring lies left of the line through `at` along `along`.
Ring leftOf(const Ring& ring, const Vec2& at, const Vec2& along) {
    const auto height = [&](const Vec2& p) {
        const double h = cross2(along, p - at);
        return std::abs(h) < 1e-9 ? 0.0 : h; // a corner on the line stays one corner
    };
    Ring kept;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
        const double hp = height(p), hq = height(q);
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

Ring rectangle(double left, double width, double depth) {
    return {{left, 0}, {left + width, 0}, {left + width, depth}, {left, depth}};
}

} // namespace

Expected<CleatSection> cleatSection(double width, double depth, double dihedral, bool flat) {
    if (!(dihedral > 0) || !(dihedral < std::numbers::pi) || !(width > 0) || !(depth > 0))
        return fail("cleat-corner", "A cleat needs an inside corner below 180° and a size above zero.", {},
                    "Choose another joint, or correct width and depth.");
    const Vec2 b(std::cos(dihedral), std::sin(dihedral));
    const double lean = b.x() / b.y(); // the second face runs off by this for each mm of depth
    const bool blunt = width + depth * lean < width / 2;
    if (flat && (blunt || width - depth * lean < 1e-3 * width))
        return fail("cleat-corner", "A strip of a sheet is too narrow for a corner so far from square.", {},
                    "Make it wider, or leave the rule's sheet empty and plane timber to the corner.");
    CleatSection section;
    if (std::abs(dihedral - std::numbers::pi / 2) < 1e-6) {
        section.outline = rectangle(0, width, depth);
    } else if (!blunt) {
        section.outline = leftOf(rectangle(std::min(0.0, depth * lean), width, depth), {0, 0}, -b);
        section.planed = 1;
    } else {
        const Vec2 up(std::cos(dihedral / 2), std::sin(dihedral / 2)),
            half = Vec2(up.y(), -up.x()) * width / 2;
        section.outline =
            leftOf(leftOf({-half, half, half + up * depth, -half + up * depth}, {0, 0}, {1, 0}), {0, 0}, -b);
        section.planed = 2;
    }
    section.onA = reachOn(section.outline, {1, 0});
    section.onB = reachOn(section.outline, b);
    return section;
}

} // namespace slab
