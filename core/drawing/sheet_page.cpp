#include "core/drawing/fold_ink.h"
#include "core/drawing/label_spot.h"
#include "core/drawing/panel_ink.h"
#include "core/drawing/sheets.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

Vec2 moved(const Vec2& p, const NestPlace& place) {
    const double y = place.flipped ? -p.y() : p.y();
    const double c = std::cos(place.rotation), s = std::sin(place.rotation);
    return {c * p.x() - s * y + place.x, s * p.x() + c * y + place.y};
}

Ring moved(Ring ring, const NestPlace& place) {
    for (Vec2& p : ring) p = moved(p, place);
    return ring;
}

void move(PanelLoop& loop, const NestPlace& place) {
    loop.outer = moved(std::move(loop.outer), place);
    loop.inner = moved(std::move(loop.inner), place);
}

/// The panel as it lies on the sheet; a flipped one shows its inside face.
Panel lying(Panel panel, const NestPlace& place) {
    move(panel.boundary, place);
    for (PanelLoop& hole : panel.holes) move(hole, place);
    for (PanelFold& fold : panel.folds) {
        fold.from = moved(fold.from, place);
        fold.to = moved(fold.to, place);
        fold.mouth = moved(std::move(fold.mouth), place);
    }
    for (PanelCopy& copy : panel.copies) copy.contacts.clear(); // told by the panel's own drawing
    NestPlace turn = place;
    turn.x = turn.y = 0;
    panel.up = moved(panel.up, turn);
    return panel;
}

Panel fromPart(const NestPart& part) {
    Panel panel;
    panel.name = part.id;
    panel.boundary.outer = part.shape.outer;
    for (const Ring& hole : part.shape.holes) panel.holes.push_back({"", hole, {}, {}, {}});
    return panel;
}

std::string placeWords(const NestPart& part, const NestPlace& place) {
    std::string words = part.id;
    if (part.copies > 1)
        words += " · copy " + std::to_string(place.copy + 1) + " of " + std::to_string(part.copies);
    double degrees = place.rotation * 180 / std::numbers::pi;
    degrees -= 360 * std::floor(degrees / 360 + 1e-12);
    if (degrees > 0.05 && degrees < 359.95) words += " · turned " + plain(degrees, 1) + "°";
    if (place.flipped) words += " · inside face up";
    return words;
}

Group placedGroup(const NestPart& part, const NestPlace& place, const Panel& panel, Ink tint,
                  double sheetSize) {
    const Panel here = lying(panel, place);
    Group group{part.id,
                placeWords(part, place),
                {{"outer", {}, {}, {}, {}}, {"inner", {}, {}, {}, {}}, {"marks", {}, {}, {}, {}}}};
    if (here.boundary.outer.size() < 3) return group;
    group.layers[0].fills.push_back({faceArea(here), tint, false});
    drawOutlines(here, {}, group.layers[0], group.layers[1]);
    drawFolds(here, {}, group);
    // A sheet is read at arm's length or fitted to paper: letters in proportion to it.
    drawName(here, nameArea(here, {}, sheetSize / 300), Pen(group.layers[2]),
             {sheetSize / 30, sheetSize / 160});
    return group;
}

} // namespace

Page sheetPage(const NestProblem& problem, const NestLayout& layout, const std::vector<Panel>& panels,
               const StockSet& stock, int number) {
    Page page;
    if (layout.sheet < 0 || static_cast<std::size_t>(layout.sheet) >= problem.sheets.size()) return page;
    const NestSheet& sheet = problem.sheets[static_cast<std::size_t>(layout.sheet)];
    const Sheet* kind = stock.find(sheet.stock);
    const Ink tint = tintFor(kind ? kind->kind : "foam");
    page.name =
        "Sheet " + std::to_string(number) + " · " + sheet.stock + (layout.onHand ? " · in the shed" : "");
    page.width = sheet.length;
    page.height = sheet.width;
    Group border{"sheet", page.name, {{"sheet", {}, {}, {}, {}}}};
    const Pen pen(border.layers[0]);
    pen.box({0, 0, sheet.length, sheet.width}, {0.5, Ink::quiet});
    if (sheet.trim > 0)
        pen.box({sheet.trim, sheet.trim, sheet.length - 2 * sheet.trim, sheet.width - 2 * sheet.trim},
                {0.2, Ink::pale, Dash::dotted});
    page.groups.push_back(std::move(border));
    for (const NestPlace& place : layout.places) {
        if (place.part < 0 || static_cast<std::size_t>(place.part) >= problem.parts.size()) continue;
        const NestPart& part = problem.parts[static_cast<std::size_t>(place.part)];
        const auto found =
            std::find_if(panels.begin(), panels.end(), [&](const Panel& p) { return p.name == part.id; });
        page.groups.push_back(placedGroup(part, place, found != panels.end() ? *found : fromPart(part), tint,
                                          std::max(sheet.length, sheet.width)));
    }
    return page;
}

} // namespace slab
