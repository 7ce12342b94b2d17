#include "core/plates/facets.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

int facetsOf(double radius) {
    if (!(radius > chordError)) return 16;
    const double n = std::numbers::pi / std::acos(1 - chordError / radius);
    return std::max(16, 4 * static_cast<int>(std::ceil(n / 4)));
}

Ring circleRing(double radius) {
    const int n = facetsOf(radius);
    Ring ring;
    for (int i = 0; i < n; ++i) {
        const double a = 2 * std::numbers::pi * i / n;
        ring.emplace_back(radius * std::cos(a), radius * std::sin(a));
    }
    return ring;
}

Ring roundedRing(double width, double height, double radius) {
    const double x = width / 2 - radius, y = height / 2 - radius;
    const Vec2 centres[4] = {{x, y}, {-x, y}, {-x, -y}, {x, -y}};
    const int n = radius > 0 ? facetsOf(radius) / 4 : 0;
    Ring ring;
    for (int q = 0; q < 4; ++q)
        for (int i = 0; i <= n; ++i) {
            const double a = std::numbers::pi / 2 * (q + (n ? static_cast<double>(i) / n : 0.0));
            const Vec2 p = centres[q] + radius * Vec2(std::cos(a), std::sin(a));
            if (ring.empty() || (p - ring.back()).norm() > 1e-9) ring.push_back(p);
        }
    if ((ring.front() - ring.back()).norm() < 1e-9) ring.pop_back();
    return ring;
}

} // namespace slab::plates
