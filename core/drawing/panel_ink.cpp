#include "core/drawing/panel_ink.h"
#include "core/drawing/contact_ink.h"
#include "core/drawing/guide_ink.h"
#include "core/drawing/label_spot.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

constexpr double cutWidth = 0.5, innerWidth = 0.25;

} // namespace

Ring PanelMap::ring(const Ring& points) const {
    if (scale == 1 && shift == Vec2::Zero()) return points;
    Ring result;
    result.reserve(points.size());
    for (const Vec2& p : points) result.push_back((*this)(p));
    return result;
}

void drawOutlines(const Panel& panel, const PanelMap& map, Layer& outer, Layer& inner) {
    const LineStyle solid{cutWidth, Ink::line};
    Pen(outer).path(map.ring(panel.boundary.outer), true, solid);
    for (const PanelLoop& hole : panel.holes) Pen(outer).path(map.ring(hole.outer), true, solid);
    const LineStyle dashed{innerWidth, Ink::line, Dash::dashed};
    const auto drawInner = [&](const PanelLoop& loop) {
        if (loop.inner.size() >= 2) Pen(inner).path(map.ring(loop.inner), true, dashed);
    };
    drawInner(panel.boundary);
    for (const PanelLoop& hole : panel.holes) drawInner(hole);
}

Polygon faceArea(const Panel& panel, const PanelMap& map) {
    Polygon area{map.ring(panel.boundary.outer), {}};
    for (const PanelLoop& hole : panel.holes) area.holes.push_back(map.ring(hole.outer));
    return area;
}

Ring foldStrip(const Vec2& from, const Vec2& to, double aside) {
    const Vec2 along = (to - from).normalized(), out = Vec2(along.y(), -along.x()) * aside;
    return {from - out / 5, from + out, to + out, to - out / 5};
}

double grooveAside(const PanelFold& fold) {
    const Vec2 along = (fold.to - fold.from).normalized(), out(along.y(), -along.x());
    double most = 0;
    for (const Vec2& p : fold.mouth) most = std::max(most, (p - fold.from).dot(out));
    return most;
}

Polygon nameArea(const Panel& panel, const PanelMap& map, double aside) {
    Polygon area = faceArea(panel, map);
    for (const PanelFold& fold : panel.folds)
        if (fold.from != fold.to)
            area.holes.push_back(
                foldStrip(map(fold.from), map(fold.to), aside + grooveAside(fold) * map.scale));
    for (const ContactSpot& spot : contactSpots(panel))
        for (Ring& band : contactBands(spot, map, aside)) area.holes.push_back(std::move(band));
    for (Ring& words : guideWordAreas(panel, map)) area.holes.push_back(std::move(words));
    return area;
}

EdgeSpot edgeSpot(const Ring& outline, std::size_t edge) {
    const Vec2& a = outline[edge];
    const Vec2 span = outline[(edge + 1) % outline.size()] - a;
    EdgeSpot spot;
    spot.middle = a + span / 2;
    spot.length = span.norm();
    if (spot.length > 0) spot.along = span / spot.length;
    spot.out = Vec2(spot.along.y(), -spot.along.x()); // the outline runs counter-clockwise
    return spot;
}

void drawName(const Panel& panel, const Polygon& area, const Pen& pen, const NameStyle& style) {
    constexpr double arrowRoom =
        1.15; // the arrow stands left of the name in a square of this many letter heights
    std::string name = panel.name;
    Spot spot = labelSpot(area, textWidth(name, {1, true, false}) + arrowRoom);
    double height = std::min(style.most, 0.86 * spot.height);
    if (height < style.least) {
        // Too long a name: shorten it rather than leave the part without one.
        spot = labelSpot(area, 5 + arrowRoom);
        height = std::min(style.least, 0.86 * spot.height);
        if (height < 0.9 * style.least) return;
        name = elided(name, 5 * height, {height, true, false});
    }
    const double width = textWidth(name, {height, true, false}) + arrowRoom * height;
    const Vec2 along(std::cos(spot.turn), std::sin(spot.turn)), across(-along.y(), along.x());
    const Vec2 left = spot.centre - along * width / 2;
    pen.words(left + along * arrowRoom * height - across * height / 2.8, name,
              {height, Align::left, Ink::pale, true, false, spot.turn});
    const Vec2 middle = left + along * 0.42 * height, half = panel.up.normalized() * 0.42 * height;
    pen.arrow(middle - half, middle + half, 0.36 * height, {std::max(0.25, 0.05 * height), Ink::pale});
}

} // namespace slab
