#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

/// Angle of a direction turned so that words along it are never upside down.
double readable(const Vec2& along) {
    double turn = std::atan2(along.y(), along.x());
    if (turn > std::numbers::pi / 2 + 1e-9) turn -= std::numbers::pi;
    if (turn <= -std::numbers::pi / 2 + 1e-9) turn += std::numbers::pi;
    return turn;
}

std::string edgeWords(const EdgeRow& row, bool full) {
    std::string words;
    if (row.mark > 0) words = std::to_string(row.mark);
    if (!full) return words;
    if (!row.neighbour.empty())
        words += (words.empty() ? "" : " · ") + std::string(roleName(row.role)) + " " + row.neighbour;
    if (std::abs(row.bevel) >= squareWithin) {
        words += (words.empty() ? "" : " · ") + std::string("tilt ") + printAngle(std::abs(row.bevel));
        words += row.bevel > 0 ? ", outside long" : ", inside long";
    }
    return words;
}

/// Match mark at the middle of an edge: a small wedge with its tip on the cut line, the shared number behind
/// it, and what meets there when there is room along the edge.
void drawMatchMark(const Panel& panel, const EdgeRow& row, const Pen& pen) {
    const Ring& outline = panel.boundary.outer;
    const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
    if (edge >= outline.size()) return;
    const EdgeSpot spot = edgeSpot(outline, edge);
    const double run = spot.length * (row.last - row.first + 1);
    const double wedge = std::min(3.0, spot.length / 4);
    if (row.mark > 0)
        pen.fill(Ring{spot.middle, spot.middle - wedge * spot.out - 0.3 * wedge * spot.along,
                      spot.middle - wedge * spot.out + 0.3 * wedge * spot.along},
                 Ink::line);
    const double height = std::min(3.2, std::max(1.6, spot.length / 8));
    std::string words = edgeWords(row, true);
    if (textWidth(words, {height, false, false}) > 0.8 * run || row.last > row.first)
        words = edgeWords(row, false);
    if (words.empty() || textWidth(words, {height, false, false}) > 0.9 * run) return;
    const PanelEdge& cut = panel.boundary.edges[edge];
    const double inset = std::max({0.0, cut.offsetInner - cut.offsetOuter, row.mark > 0 ? wedge : 0.0});
    const double turn = readable(spot.along);
    const Vec2 at = spot.middle - spot.out * (inset + 0.9 * height);
    pen.wordsMiddle(at, words, {height, Align::centre, Ink::quiet, false, false, turn});
}

/// Centre cross with diameter for a round opening, the name for others.
void drawOpening(const PanelLoop& hole, const Pen& pen) {
    const LineStyle thin{0.18, Ink::quiet};
    const Box2 box = bounds(hole.outer);
    const Vec2 middle = (box.min + box.max) / 2;
    const double reach = std::min(box.size().x(), box.size().y()) / 2;
    if (const auto circle = circleThrough(hole.outer)) {
        const auto& [centre, radius] = *circle;
        const double arm = std::min(radius + 3, std::max(4.0, 1.25 * radius));
        pen.line(centre - Vec2(arm, 0), centre + Vec2(arm, 0), thin);
        pen.line(centre - Vec2(0, arm), centre + Vec2(0, arm), thin);
        const double height = std::clamp(radius / 4, 1.6, 4.0);
        pen.words(centre + Vec2(0.3 * height, 0.4 * height), "Ø " + plain(2 * radius, 1),
                  {height, Align::left, Ink::quiet});
        return;
    }
    const std::string name = hole.opening.empty() ? "cut out" : hole.opening;
    const double fits = 1.6 * reach / std::max(1.0, textWidth(name, {1, false, false}));
    const double height = std::min({5.0, fits, reach / 2});
    if (height > 1) pen.wordsMiddle(middle, name, {height, Align::centre, Ink::quiet});
}

} // namespace

Ink tintFor(const std::string& stockKind) {
    if (stockKind == "hardboard") return Ink::hardboard;
    if (stockKind == "plywood") return Ink::plywood;
    if (stockKind == "card") return Ink::card;
    if (stockKind == "plastic") return Ink::plastic;
    return Ink::foam;
}

Group panelGroup(const Panel& panel, Ink tint) {
    Group group{panel.name,
                panel.name,
                {{"outer", {}, {}, {}, {}}, {"inner", {}, {}, {}, {}}, {"marks", {}, {}, {}, {}}}};
    if (panel.boundary.outer.size() < 3) return group;
    Layer& outer = group.layers[0];
    Layer& marks = group.layers[2];
    outer.fills.push_back({faceArea(panel), tint, false});
    drawOutlines(panel, {}, outer, group.layers[1]);
    const Pen pen(marks);
    const Vec2 box = bounds(panel.boundary.outer).size();
    drawName(panel, faceArea(panel), pen, {std::clamp(std::min(box.x(), box.y()) / 6, 3.0, 50.0), 1.8});
    for (const EdgeRow& row : edgeRows(panel)) drawMatchMark(panel, row, pen);
    for (const PanelLoop& hole : panel.holes)
        if (hole.outer.size() >= 3) drawOpening(hole, pen);
    return group;
}

} // namespace slab
