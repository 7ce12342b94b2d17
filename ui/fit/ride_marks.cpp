#include "ui/fit/ride_marks.h"
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {

constexpr double aboveGround = 1; ///< mm: over the grid

Vec3 onGround(const Vec2& p) {
    return {p.x(), p.y(), aboveGround};
}

void addStand(const trial::Balance& b, std::vector<SceneMark>& out) {
    SceneMark polygon{MarkKind::stand, {}}, first{MarkKind::firstTip, {}}, weight{MarkKind::weight, {}};
    for (const ride::TipLine& line : b.lines) {
        auto& lines = line == b.least.line ? first.lines : polygon.lines;
        lines.push_back(onGround(b.stance.wheels[static_cast<std::size_t>(line.from)]));
        lines.push_back(onGround(b.stance.wheels[static_cast<std::size_t>(line.to)]));
    }
    const Vec3& c = b.stance.centre;
    const Vec3 foot(c.x(), c.y(), aboveGround);
    weight.lines = {foot, c};
    constexpr double arm = 60;
    for (int axis = 0; axis < 3; ++axis) {
        const Vec3 by = arm * Vec3::Unit(axis);
        weight.lines.insert(weight.lines.end(), {c - by, c + by});
        if (axis < 2) weight.lines.insert(weight.lines.end(), {foot - by, foot + by});
    }
    out.push_back(std::move(polygon));
    out.push_back(std::move(first));
    out.push_back(std::move(weight));
}

/// Rays from the eye's foot outward where the ground is hidden: a hatch that needs no area.
void addBlind(const trial::View& view, std::vector<SceneMark>& out) {
    const sight::BlindMap& map = view.map;
    if (map.directions < 1 || map.rings < 1) return;
    SceneMark mark{MarkKind::blind, {}};
    const int stride = std::max(1, map.directions / 120);
    const double deep = map.reach / map.rings;
    for (int i = 0; i < map.directions; i += stride) {
        const double azimuth = map.azimuth(i);
        const Vec2 way(std::cos(azimuth), std::sin(azimuth));
        for (int k = 0; k < map.rings;) {
            int end = k;
            while (end < map.rings && map.at(i, end)) ++end;
            if (end > k) {
                mark.lines.push_back(onGround(view.eye.head<2>() + k * deep * way));
                mark.lines.push_back(onGround(view.eye.head<2>() + end * deep * way));
            }
            k = end + 1;
        }
    }
    out.push_back(std::move(mark));
}

void addCircle(const trial::Turning& turning, std::vector<SceneMark>& out) {
    SceneMark mark{MarkKind::circle, {}};
    for (const double radius : {turning.path.outer, turning.path.inner})
        if (radius > 1) addGroundCircle(turning.centre, radius, mark.lines);
    out.push_back(std::move(mark));
}

} // namespace

void addGroundCircle(const Vec2& centre, double radius, std::vector<Vec3>& lines) {
    constexpr int sides = 96;
    const auto at = [&](int i) {
        const double turn = 2 * std::numbers::pi * i / sides;
        return onGround(centre + radius * Vec2(std::cos(turn), std::sin(turn)));
    };
    for (int i = 0; i < sides; ++i) lines.insert(lines.end(), {at(i), at(i + 1)});
}

std::vector<SceneMark> rideMarks(const trial::Trial& trial, const GroundMarks& wanted) {
    std::vector<SceneMark> out;
    if (wanted.blind && !trial.views.empty()) addBlind(trial.views.front(), out);
    if (wanted.circle && trial.turning) addCircle(*trial.turning, out);
    if (wanted.stand && trial.balance) addStand(*trial.balance, out);
    return out;
}

} // namespace slab::ui
