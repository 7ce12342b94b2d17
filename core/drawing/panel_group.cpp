#include "core/drawing/contact_ink.h"
#include "core/drawing/fold_ink.h"
#include "core/drawing/guide_ink.h"
#include "core/drawing/label_spot.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include "core/drawing/tiles.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

/// Copies have marks of their own: their edge says its number instead, and a table the marks.
std::string edgeWords(const EdgeRow& row, bool full) {
    std::string words;
    if (!row.marks.empty())
        words = "edge " + row.number;
    else if (row.mark > 0)
        words = markWords(row);
    if (!full) return words;
    if (row.differs)
        words += (words.empty() ? "" : " · ") + std::string(roleName(row.role));
    else if (!row.neighbour.empty())
        words += (words.empty() ? "" : " · ") + std::string(roleName(row.role)) + " " + row.neighbour;
    if (std::abs(row.bevel) >= squareWithin) {
        words += (words.empty() ? "" : " · ") + std::string("tilt ") + printAngle(std::abs(row.bevel));
        words += row.bevel > 0 ? ", outside long" : ", inside long";
    }
    return words;
}

constexpr double wedgeLength = 3;

/// Match mark at the middle of an edge: a small wedge with its tip on the cut line.
void drawWedge(const Panel& panel, const EdgeRow& row, const Pen& pen) {
    const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
    const Ring& outline = loopOf(panel, row).outer;
    if (edge >= outline.size() || row.mark <= 0) return;
    const EdgeSpot spot = edgeSpot(outline, edge);
    const double wedge = std::min(wedgeLength, spot.length / 4);
    const Vec2 foot = spot.middle - wedge * spot.out, half = 0.3 * wedge * spot.along;
    pen.fill(Ring{spot.middle, foot - half, foot + half}, Ink::line);
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
    const std::string name = hole.opening.empty()
                                 ? (openingName(hole) == "hole" ? "cut out" : "cut out " + openingName(hole))
                                 : hole.opening;
    const double fits = 1.6 * reach / std::max(1.0, textWidth(name, {1, false, false}));
    const double height = std::min({5.0, fits, reach / 2});
    if (height > 1) pen.wordsMiddle(middle, name, {height, Align::centre, Ink::quiet});
}

} // namespace

void drawEdgeWords(const Panel& panel, const EdgeRow& row, const Vec2& from, const Vec2& to, const Pen& pen) {
    const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
    const PanelLoop& loop = loopOf(panel, row);
    if (edge >= loop.edges.size()) return;
    const double length = (to - from).norm(), height = std::clamp(length / 8, 1.6, 3.2);
    const TextStyle style{height, false, false};
    std::string words = edgeWords(row, row.first == row.last);
    if (textWidth(words, style) > 0.85 * length) words = edgeWords(row, false);
    if (words.empty() || textWidth(words, style) > 0.9 * length) return;
    const PanelEdge& cut = loop.edges[edge];
    const EdgeSpot spot = edgeSpot(loop.outer, edge);
    const double wedge = row.mark > 0 ? std::min(wedgeLength, spot.length / 4) : 0;
    const double inset = std::max({0.0, cut.offsetInner - cut.offsetOuter, wedge});
    const Vec2 at = (from + to) / 2 - spot.out * (inset + 0.9 * height);
    pen.wordsMiddle(at, words, {height, Align::centre, Ink::quiet, false, false, readable(spot.along)});
}

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
                {{"outer", {}, {}, {}, {}},
                 {"inner", {}, {}, {}, {}},
                 {"marks", {}, {}, {}, {}},
                 {"words", {}, {}, {}, {}}}};
    if (panel.boundary.outer.size() < 3) return group;
    Layer& outer = group.layers[0];
    Layer& marks = group.layers[2];
    outer.fills.push_back({faceArea(panel), tint, false});
    drawOutlines(panel, {}, outer, group.layers[1]);
    const Pen pen(marks);
    const Vec2 box = bounds(panel.boundary.outer).size();
    drawName(panel, nameArea(panel, {}, 6), pen,
             {std::clamp(std::min(box.x(), box.y()) / 6, 3.0, 50.0), 1.8});
    for (const EdgeRow& row : edgeRows(panel)) {
        drawWedge(panel, row, pen);
        const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
        const Ring& outline = loopOf(panel, row).outer;
        if (edge < outline.size())
            drawEdgeWords(panel, row, outline[edge], outline[(edge + 1) % outline.size()],
                          Pen(group.layers[3]));
    }
    for (const PanelFold& fold : panel.folds)
        drawFoldWords(fold, fold.from, fold.to, {}, Pen(group.layers[3]));
    for (const PanelLoop& hole : panel.holes)
        if (hole.outer.size() >= 3) drawOpening(hole, pen);
    const std::vector<ContactSpot> spots = contactSpots(panel);
    drawContacts(spots, {}, marks);
    drawGuides(panel, {}, marks);
    WordRoom room{drawnRings(panel), {}, faceArea(panel), {-1e6, -1e6, 2e6, 2e6}};
    for (const Layer& layer : group.layers)
        for (const Label& label : layer.labels) room.taken.push_back(labelArea(label));
    keepClearOfArrow(marks, room);
    drawContactWords(spots, {}, 3.2, room, Pen(group.layers[3]));
    drawRestWords(restLines(panel), 3.2, room, Pen(group.layers[3]));
    drawFolds(panel, {}, group);
    return group;
}

} // namespace slab
