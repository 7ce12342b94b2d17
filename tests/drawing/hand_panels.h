#pragma once
// Panels made by hand for the drawing tests: the rooms that make real ones have their own tests.
#include "core/drawing/sheets.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

namespace slab::hand {

/// What one edge gets: inner outline offset by b (mm), neighbour and role.
struct Cut {
    std::string neighbour;
    EdgeRole role = EdgeRole::covers;
    double inner = 0; ///< offset of the inner outline, inward positive, mm
};

/// Inner corner where two edges, each moved inward by its own offset, meet.
inline Vec2 corner(const Vec2& p, const Vec2& before, const Vec2& after, double a, double b) {
    const Vec2 u = (p - before).normalized(), v = (after - p).normalized();
    const Vec2 nu(-u.y(), u.x()), nv(-v.y(), v.x()); // inward for a counter-clockwise ring
    Eigen::Matrix2d lines;
    lines << nu.x(), nu.y(), nv.x(), nv.y();
    if (std::abs(lines.determinant()) < 1e-9) return p + nu * a;
    return lines.colPivHouseholderQr().solve(Vec2(nu.dot(p) + a, nv.dot(p) + b));
}

inline PanelLoop loopOf(const Ring& outer, const std::vector<Cut>& cuts, double thickness,
                        const std::string& opening = "") {
    PanelLoop loop;
    loop.opening = opening;
    loop.outer = outer;
    const std::size_t n = outer.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Cut cut = cuts.empty() ? Cut{"", EdgeRole::cut, 0} : cuts[i % cuts.size()];
        const Cut last = cuts.empty() ? Cut{"", EdgeRole::cut, 0} : cuts[(i + n - 1) % n % cuts.size()];
        PanelEdge edge;
        edge.neighbour = cut.neighbour;
        edge.role = cut.role;
        edge.bevel = std::atan2(cut.inner, thickness);
        edge.length = (outer[(i + 1) % n] - outer[i]).norm();
        edge.offsetInner = cut.inner;
        edge.inner = static_cast<int>(i);
        edge.mark = cut.neighbour.empty() ? 0 : static_cast<int>(i) + 11;
        loop.edges.push_back(edge);
        loop.inner.push_back(
            corner(outer[i], outer[(i + n - 1) % n], outer[(i + 1) % n], last.inner, cut.inner));
    }
    return loop;
}

inline Ring rectangle(double x, double y, double w, double h) {
    return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
}

inline Ring circle(double x, double y, double r, int n = 48) {
    Ring ring;
    for (int i = 0; i < n; ++i) {
        const double angle = 2 * std::numbers::pi * i / n;
        ring.push_back({x + r * std::cos(angle), y + r * std::sin(angle)});
    }
    return ring;
}

inline void addHole(Panel& panel, Ring ring, const std::string& name) {
    std::reverse(ring.begin(), ring.end());
    panel.holes.push_back(loopOf(ring, {}, panel.thickness, name));
}

inline Panel panelOf(const std::string& name, const Ring& outer, const std::vector<Cut>& cuts,
                     double thickness = 12.7) {
    Panel panel;
    panel.name = name;
    panel.plates = {name};
    panel.stock = "xps_13";
    panel.thickness = thickness;
    panel.boundary = loopOf(outer, cuts, thickness);
    panel.upWord = "up";
    panel.footprint = {outer, {}};
    return panel;
}

/// The smallest panel that the drawings must manage.
inline Panel triangle() {
    return panelOf("funnel/side#2", {{0, 0}, {60, 0}, {30, 52}},
                   {{"wheelhouse/roof", EdgeRole::butts, 0},
                    {"funnel/side#3", EdgeRole::mitre, 5.26},
                    {"funnel/side", EdgeRole::mitre, 5.26}},
                   12.7);
}

/// A long side with 14 corners, tilts of both signs and three openings.
inline Panel longSide() {
    const Ring outer = {{0, 0},      {1900, 0},   {2150, 60},  {2310, 170}, {2400, 330},
                        {2385, 520}, {2240, 520}, {2240, 470}, {1500, 430}, {1500, 560},
                        {900, 560},  {900, 430},  {60, 410},   {0, 300}};
    Panel panel = panelOf("hull/starboard", outer,
                          {{"hull/floor", EdgeRole::covers, -2.2},
                           {"hull/bow keel", EdgeRole::mitre, 3.1},
                           {"hull/bow 1", EdgeRole::mitre, 4.4},
                           {"hull/bow 2", EdgeRole::mitre, 4.4},
                           {"hull/stem", EdgeRole::mitre, 9.0},
                           {"hull/foredeck", EdgeRole::butts, 0},
                           {"", EdgeRole::cut, 0},
                           {"hull/deck", EdgeRole::butts, 1.1},
                           {"", EdgeRole::cut, 0},
                           {"", EdgeRole::cut, 0},
                           {"", EdgeRole::cut, 0},
                           {"hull/deck", EdgeRole::butts, 1.1},
                           {"hull/stern quarter", EdgeRole::mitre, 3.1},
                           {"hull/transom", EdgeRole::covers, 0}});
    panel.upWord = "up";
    addHole(panel, rectangle(1050, 180, 420, 190), "exit");
    addHole(panel, circle(1850, 260, 55), "porthole");
    addHole(panel, rectangle(250, 150, 130, 40), "hand hole");
    return panel;
}

/// A plain rectangle, mitred all round, with a ring hole; two alike.
inline Panel roof() {
    Panel panel = panelOf("wheelhouse/roof", rectangle(0, 0, 480, 360),
                          {{"wheelhouse/front", EdgeRole::covers, 2.3}}, 3.2);
    panel.stock = "hardboard_3";
    panel.plates = {"wheelhouse/roof", "wheelhouse/roof#2"};
    panel.up = Vec2(1, 0);
    panel.upWord = "forward";
    addHole(panel, circle(240, 180, 90), "funnel ring");
    return panel;
}

/// A blank of three plates: a convex fold of 90° and a valley fold of 30°.
inline Panel folded() {
    Panel panel = panelOf("fender/top \"A\" & <b>", {{0, 0}, {300, 0}, {340, 150}, {40, 150}},
                          {{"fender/front", EdgeRole::mitre, 0},
                           {"", EdgeRole::open, 0},
                           {"fender/back", EdgeRole::butts, 0},
                           {"", EdgeRole::cut, 0}},
                          4);
    panel.plates = {"fender/top \"A\" & <b>", "fender/apron", "fender/lip"};
    for (const std::string& plate : panel.plates) {
        panel.parts.push_back({});
        panel.parts.back().plate = plate;
    }
    const auto across = [](double v) { return std::pair(Vec2(40 * v / 150, v), Vec2(300 + 40 * v / 150, v)); };
    const auto fold = [&](int b, double v, double angle, bool valley) {
        PanelFold f;
        f.b = b;
        std::tie(f.from, f.to) = across(v);
        f.valley = valley;
        f.angle = angle * std::numbers::pi / 180;
        f.dihedral = std::numbers::pi + (valley ? f.angle : -f.angle);
        f.width = 2 * panel.thickness * std::tan(f.angle / 2);
        const auto low = across(v - f.width / 2), high = across(v + f.width / 2);
        f.mouth = {low.first, low.second, high.second, high.first};
        panel.folds.push_back(f);
    };
    fold(1, 50, 90, false);
    fold(2, 110, 30, true);
    return panel;
}

} // namespace slab::hand
