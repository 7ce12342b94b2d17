#include "ui/board/picture_hold.h"
#include <limits>

namespace slab::ui {

PictureHold holdOf(const PlacedPicture& picture, const Vec2& at) {
    PictureHold held;
    double least = std::numeric_limits<double>::infinity();
    const auto offer = [&](const std::string& name, const Vec2& place) {
        const double away = (place - at).norm();
        if (!(away < least)) return;
        least = away;
        held = {name, place};
    };
    offer("its first point", picture.at);
    for (const PlacedPoint& f : picture.features) offer(f.name, f.at);
    for (const PlacedPoint& c : picture.corners) offer("a corner of its rectangle", c.at);
    for (const Vec2& p : picture.outline) offer("a corner of its frame", p);
    return held;
}

} // namespace slab::ui
