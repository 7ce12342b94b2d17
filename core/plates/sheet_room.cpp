#include "core/plates/sheet_room.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

namespace {

constexpr double quarterTurn = std::numbers::pi / 2;
constexpr double sheetPlay = 1e-9; ///< mm: a part as long as its sheet still lies on it

} // namespace

bool SheetRoom::takes(const Vec2& box) const {
    return std::any_of(sizes.begin(), sizes.end(), [&](const Vec2& s) {
        return (box.x() <= s.x() + sheetPlay && box.y() <= s.y() + sheetPlay) ||
               (either && box.y() <= s.x() + sheetPlay && box.x() <= s.y() + sheetPlay);
    });
}

int SheetRoom::count(const Vec2& box) const {
    const Vec2 sheet = largest();
    const auto grid = [&](double along, double across) {
        const auto times = [](double size, double room) {
            return std::max(1, static_cast<int>(std::ceil(size / room - 1e-9)));
        };
        return times(along, sheet.x()) * times(across, sheet.y());
    };
    return either ? std::min(grid(box.x(), box.y()), grid(box.y(), box.x())) : grid(box.x(), box.y());
}

Vec2 SheetRoom::largest() const {
    Vec2 best = Vec2::Zero();
    for (const Vec2& s : sizes)
        if (s.x() * s.y() > best.x() * best.y()) best = s;
    return best;
}

SheetRoom roomOf(const StockSet& stock, const std::string& name) {
    SheetRoom room;
    for (const Sheet& s : stock.sheets) {
        if (s.name != name) continue;
        const Vec2 size(s.length - 2 * s.trim, s.width - 2 * s.trim);
        if (size.minCoeff() > 0) room.sizes.push_back(size);
        room.any = s.turns == "any";
        room.either = room.any || s.turns == "quarter";
    }
    return room;
}

std::vector<double> layDirections(const Ring& outline, const SheetRoom& room) {
    if (!room.any) return {0};
    std::vector<std::pair<double, double>> sides; // length, direction
    const Ring hull = convexHull(outline);
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 d = hull[(i + 1) % hull.size()] - hull[i];
        double direction = std::fmod(std::atan2(d.y(), d.x()) + 4 * quarterTurn, quarterTurn);
        if (quarterTurn - direction < 1e-7 || direction < 1e-7) direction = 0;
        const auto same = std::find_if(sides.begin(), sides.end(),
                                       [&](const auto& s) { return std::abs(s.second - direction) < 1e-7; });
        if (same == sides.end())
            sides.emplace_back(d.norm(), direction);
        else
            same->first += d.norm();
    }
    std::sort(sides.begin(), sides.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<double> out;
    for (std::size_t i = 0; i < sides.size() && i < 2; ++i) out.push_back(sides[i].second);
    if (out.empty()) out.push_back(0);
    return out;
}

Box2 boxAt(const Ring& points, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    Box2 box;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Vec2 p(c * points[i].x() + s * points[i].y(), c * points[i].y() - s * points[i].x());
        box.min = i == 0 ? p : Vec2(box.min.cwiseMin(p));
        box.max = i == 0 ? p : Vec2(box.max.cwiseMax(p));
    }
    return box;
}

bool fitsSheet(const Ring& outline, const SheetRoom& room, std::size_t most) {
    if (room.sizes.empty() || outline.size() < 3) return true; // nothing to be measured against
    std::vector<double> all = layDirections(outline, room);
    all.resize(std::min(all.size(), most));
    return std::any_of(all.begin(), all.end(),
                       [&](double angle) { return room.takes(boxAt(outline, angle).size()); });
}

} // namespace slab::plates
