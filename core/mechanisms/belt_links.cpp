#include "core/mechanisms/belt_path.h"
#include <cmath>
#include <optional>

namespace slab {
namespace {

constexpr double closeEnough = 1e-10; ///< mm of belt length
constexpr double mostLinks = 10000;   ///< shorter ones are a slip of the pen

std::vector<BeltCircle> withMoved(std::vector<BeltCircle> circles, int wheel, const Vec2& by) {
    circles[static_cast<std::size_t>(wheel)].centre += by;
    return circles;
}

/// Belt length with the wheel moved; nothing where there is no belt.
class MovedLength {
public:
    MovedLength(const std::vector<BeltCircle>& circles, int wheel, const Vec2& way)
        : m_circles(circles), m_wheel(wheel), m_way(way) {}
    [[nodiscard]] std::optional<double> at(double by) const {
        const auto path = beltPath(withMoved(m_circles, m_wheel, by * m_way));
        return path ? std::optional(path->length) : std::nullopt;
    }
    /// Least |s| on one side of 0 at which the length is `wanted`; looked for in steps, then halved.
    [[nodiscard]] std::optional<double> root(double wanted, double limit, int side) const {
        constexpr int steps = 64;
        auto before = at(0);
        if (!before) return std::nullopt;
        if (std::abs(*before - wanted) <= closeEnough) return 0;
        double from = 0;
        for (int i = 1; i <= steps; ++i) {
            const double to = side * limit * i / steps;
            const auto now = at(to);
            if (!now) return std::nullopt;
            if ((*before - wanted) * (*now - wanted) <= 0) return halved(wanted, from, to);
            before = now;
            from = to;
        }
        return std::nullopt;
    }

private:
    const std::vector<BeltCircle>& m_circles;
    int m_wheel;
    Vec2 m_way;

    [[nodiscard]] std::optional<double> halved(double wanted, double from, double to) const {
        const auto first = at(from);
        if (!first) return std::nullopt;
        const bool rises = *first <= wanted;
        for (int i = 0; i < 80; ++i) {
            const double middle = (from + to) / 2;
            const auto length = at(middle);
            if (!length) return std::nullopt;
            if (std::abs(*length - wanted) <= closeEnough) return middle;
            ((*length <= wanted) == rises ? from : to) = middle;
        }
        return (from + to) / 2;
    }
};

Unexpected badPitch() {
    return fail(
        "belt-pitch",
        "The pitch of the belt is not above zero, is longer than a third of the belt, or gives more than "
        "10000 links.",
        "pitch", "Type the length of one link.");
}

} // namespace

Vec2 tighteningWay(const std::vector<BeltCircle>& circles, int wheel) {
    const auto count = static_cast<int>(circles.size());
    const auto centre = [&](int i) { return circles[static_cast<std::size_t>((i + count) % count)].centre; };
    const Vec2 away = centre(wheel) - (centre(wheel - 1) + centre(wheel + 1)) / 2;
    if (away.norm() > 1e-6)
        return circles[static_cast<std::size_t>(wheel)].outside ? Vec2(-away.normalized())
                                                                : Vec2(away.normalized());
    // In line between its neighbours: square to that line.
    const Vec2 line = centre(wheel + 1) - centre(wheel - 1);
    return line.norm() > 1e-6 ? Vec2(-line.y(), line.x()).normalized() : Vec2(Vec2::UnitX());
}

Expected<BeltLinks> linksByMoving(const std::vector<BeltCircle>& circles, double pitch, int wheel,
                                  const Vec2& direction) {
    const auto path = beltPath(circles);
    if (!path) return tl::make_unexpected(path.error());
    if (!(pitch > 0) || 3 * pitch > path->length || path->length > mostLinks * pitch) return badPitch();
    const MovedLength length(circles, wheel, direction);
    const double whole = std::floor(path->length / pitch + 1e-12);
    std::optional<double> best;
    double bestLinks = 0;
    for (const double links : {whole, whole + 1})
        for (const int side : {1, -1}) {
            if (links < 3) continue;
            const auto by = length.root(links * pitch, 2 * pitch, side);
            if (!by || (best && std::abs(*by) >= std::abs(*best))) continue;
            best = by;
            bestLinks = links;
        }
    if (!best)
        return fail("belt-no-links", "Moving this wheel does not bring the belt to a whole number of links.",
                    std::to_string(wheel), "Let another wheel move, or let the pitch change.");
    BeltLinks result;
    result.links = static_cast<int>(bestLinks);
    result.pitch = pitch;
    result.moved = *best * direction;
    result.circles = withMoved(circles, wheel, result.moved);
    auto moved = beltPath(result.circles);
    if (!moved) return tl::make_unexpected(moved.error());
    result.path = std::move(*moved);
    return result;
}

Expected<BeltLinks> linksByPitch(const std::vector<BeltCircle>& circles, double pitch) {
    auto path = beltPath(circles);
    if (!path) return tl::make_unexpected(path.error());
    if (!(pitch > 0) || 3 * pitch > path->length || path->length > mostLinks * pitch) return badPitch();
    BeltLinks result;
    // Of the two whole numbers beside it, the one whose pitch is nearer to the wanted one.
    const double fewer = std::floor(path->length / pitch), more = fewer + 1;
    const bool takeFewer = fewer >= 3 && path->length / fewer - pitch <= pitch - path->length / more;
    result.links = static_cast<int>(takeFewer ? fewer : more);
    result.pitch = path->length / result.links;
    result.circles = circles;
    result.path = std::move(*path);
    return result;
}

} // namespace slab
