#include "core/pack/back_to_front.h"
#include <algorithm>

namespace slab {

namespace {

constexpr double inPlane = 1e-4;   ///< mm: nearer to a plane counts as in it
constexpr double farAway = 1e5;    ///< mm: beyond every figure
constexpr double leastArea = 1e-4; ///< mm²: less is rounding

/// Figures on either side of a plane, and those in it.
struct Parted {
    std::vector<FlatFigure> behind, in, before;
};

/// Puts a figure, or the parts into which a plane cuts it, where they belong.
/// @param plane  its frame's w points to what is before it
void part(const FlatFigure& figure, const Frame& plane, Parted& parted) {
    const Vec3 w = plane.axes.col(2);
    const Vec2 rise = (figure.frame.axes.transpose() * w).head<2>();
    const double at0 = w.dot(figure.frame.origin - plane.origin);
    double low = 1e300, high = -1e300;
    for (const Vec2& p : figure.area.outer) {
        low = std::min(low, rise.dot(p) + at0);
        high = std::max(high, rise.dot(p) + at0);
    }
    if (low > -inPlane || high < inPlane) {
        (high < inPlane && low > -inPlane ? parted.in
         : low > -inPlane                 ? parted.before
                                          : parted.behind)
            .push_back(figure);
        return;
    }
    const Vec2 across = rise.normalized(), along(-across.y(), across.x()), foot = -at0 / rise.norm() * across;
    const Ring half{foot - farAway * along, foot + farAway * (across - along),
                    foot + farAway * (across + along), foot + farAway * along};
    const auto add = [&](std::vector<Polygon> areas, std::vector<FlatFigure>& to) {
        for (Polygon& p : areas)
            if (area(p) > leastArea) to.push_back({figure.board, figure.frame, std::move(p)});
    };
    add(intersect({figure.area}, {{half, {}}}), parted.before);
    add(subtract({figure.area}, {{half, {}}}), parted.behind);
}

void paint(const std::vector<FlatFigure>& figures, const Vec3& eye, std::vector<FlatFigure>& order) {
    if (figures.empty()) return;
    const Frame& plane = figures.front().frame;
    Parted parted;
    for (const FlatFigure& figure : figures) part(figure, plane, parted);
    const bool faced = plane.axes.col(2).dot(eye) >= 0;
    paint(faced ? parted.behind : parted.before, eye, order);
    order.insert(order.end(), parted.in.begin(), parted.in.end());
    paint(faced ? parted.before : parted.behind, eye, order);
}

} // namespace

std::vector<FlatFigure> backToFront(const std::vector<FlatFigure>& figures, const Vec3& eye) {
    std::vector<FlatFigure> order;
    paint(figures, eye, order);
    return order;
}

} // namespace slab
