#include "core/drawing/bars.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include "core/drawing/tile_card.h"
#include "core/drawing/tiles.h"
#include <algorithm>
#include <numbers>

namespace slab {
namespace {

constexpr double barDepth = 6.2, barStart = 18; // mm; from the printable frame
/// Bars stand clear of the overlap, where crosses and trim lines are.
double barInset(const TilePlan& plan) {
    return plan.overlap + 1.5;
}

/// Everything on one tile that other things should keep clear of, in page coordinates.
struct Clutter {
    std::vector<std::pair<Vec2, Vec2>> segments;
    [[nodiscard]] double lengthIn(const Area& area) const {
        double sum = 0;
        for (const auto& [a, b] : segments)
            sum += lengthInside(a, b, {area.x, area.y}, {area.right(), area.top()});
        return sum;
    }
    void add(const Ring& ring, const Vec2& shift, bool closed) {
        for (std::size_t i = 0; i + (closed ? 0 : 1) < ring.size(); ++i)
            segments.push_back({ring[i] + shift, ring[(i + 1) % ring.size()] + shift});
    }
};

void drawCross(const Pen& pen, const Vec2& at) {
    const LineStyle thin{0.15, Ink::line};
    pen.line(at - Vec2(4, 0), at + Vec2(4, 0), thin);
    pen.line(at - Vec2(0, 4), at + Vec2(0, 4), thin);
    pen.circle(at, 2, thin);
}

/// Frame, register crosses and, at each side with a printed neighbour, the line to trim or lay to and its
/// name.
void drawFrame(const TilePlan& plan, int column, int row, const Pen& pen) {
    const Vec2 p = plan.printable(), corner(plan.border, plan.border);
    const Vec2 toPage = corner - plan.corner(column, row);
    pen.box({plan.border, plan.border, p.x(), p.y()}, {0.12, Ink::pale});
    for (int dx = 0; dx <= 1; ++dx)
        for (int dy = 0; dy <= 1; ++dy) drawCross(pen, plan.registerPoint(column + dx, row + dy) + toPage);
    const Vec2 low = plan.registerPoint(column, row) + toPage,
               high = plan.registerPoint(column + 1, row + 1) + toPage;
    const LineStyle trim{0.15, Ink::quiet, Dash::dotted};
    const double half = std::numbers::pi / 2;
    const auto side = [&](int dc, int dr, const Vec2& from, const Vec2& to, double turn) {
        if (!plan.isPrinted(column + dc, row + dr)) return;
        const Vec2 along = (to - from).normalized();
        pen.line(from + 5.5 * along, to - 5.5 * along, trim);
        const Vec2 out(dc, dr);
        pen.wordsMiddle((from + to) / 2 + 2.6 * out, "joins " + plan.tileName(column + dc, row + dr),
                        {2.4, Align::centre, Ink::quiet, true, false, turn});
    };
    side(-1, 0, low, {low.x(), high.y()}, half);
    side(1, 0, {high.x(), low.y()}, high, -half);
    side(0, -1, low, {high.x(), low.y()}, 0);
    side(0, 1, {low.x(), high.y()}, high, 0);
}

/// Bars along the emptier of the two sides, in both axes. @return the areas that they take
std::vector<Area> drawBars(const TilePlan& plan, const UnitStyle& units, const Clutter& clutter,
                           const Pen& pen) {
    const Vec2 p = plan.printable();
    const double x0 = plan.border, y0 = plan.border;
    std::vector<Area> taken;
    const double across = barLength(p.x() - 2 * barStart, units), up = barLength(p.y() - 2 * barStart, units);
    if (across > 0) {
        const Area bottom{x0 + barStart, y0 + barInset(plan), across, barDepth};
        const Area top{x0 + barStart, y0 + p.y() - barInset(plan) - barDepth, across, barDepth};
        const bool low = clutter.lengthIn(bottom) <= clutter.lengthIn(top);
        taken.push_back(low ? bottom : top);
        drawBar(pen, {taken[0].x, low ? bottom.y : top.top()}, across, units,
                {false, !low, "measure before cutting"});
    }
    if (up > 0) {
        const Area left{x0 + barInset(plan), y0 + barStart, barDepth, up};
        const Area right{x0 + p.x() - barInset(plan) - barDepth, y0 + barStart, barDepth, up};
        const bool first = clutter.lengthIn(left) <= clutter.lengthIn(right);
        taken.push_back(first ? left : right);
        drawBar(pen, {first ? left.x : right.right(), left.y}, up, units,
                {true, first, "measure before cutting"});
    }
    return taken;
}

/// The emptiest place for a card: least cut line under it, then off the panel, then near a corner.
Area placeCard(const TilePlan& plan, const Vec2& card, const Clutter& clutter, const std::vector<Area>& taken,
               const Polygon& face) {
    const double gap = barInset(plan) + barDepth + 1.5; // clear of the bars
    const Vec2 p = plan.printable();
    Area best{plan.border + gap, plan.border + gap, card.x(), card.y()};
    double least = 1e300;
    const double spanX = std::max(0.0, p.x() - 2 * gap - card.x()),
                 spanY = std::max(0.0, p.y() - 2 * gap - card.y());
    const int stepsX = std::max(1, static_cast<int>(spanX / 6)),
              stepsY = std::max(1, static_cast<int>(spanY / 6));
    for (int i = 0; i <= stepsX; ++i)
        for (int j = 0; j <= stepsY; ++j) {
            const Area area{plan.border + gap + spanX * i / stepsX, plan.border + gap + spanY * j / stepsY,
                            card.x(), card.y()};
            double cost = 10 * clutter.lengthIn(area.grown(2));
            for (const Area& bar : taken)
                if (bar.meets(area.grown(1))) cost += 200;
            if (contains(face, Vec2(area.x + area.width / 2, area.y + area.height / 2))) cost += 1;
            cost += 1e-3 * (std::min(i, stepsX - i) + std::min(j, stepsY - j));
            if (cost < least - 1e-9) {
                least = cost;
                best = area;
            }
        }
    return best;
}

Polygon shifted(Polygon area, const Vec2& by) {
    for (Vec2& p : area.outer) p += by;
    for (Ring& hole : area.holes)
        for (Vec2& p : hole) p += by;
    return area;
}

/// The name inside the part on every page, so that each scrap of paper says where it belongs.
void nameTile(const Panel& panel, const Polygon& face, const TilePlan& plan, const std::vector<Area>& taken,
              const Pen& pen) {
    const Vec2 p = plan.printable();
    const double most = std::clamp(0.07 * std::min(p.x(), p.y()), 8.0, 60.0);
    std::vector<Polygon> used;
    for (const Area& area : taken) used.push_back({ringOf(area.grown(1)), {}});
    const double inset = plan.overlap + 1;
    const Area middle{plan.border + inset, plan.border + inset, p.x() - 2 * inset, p.y() - 2 * inset};
    std::vector<Polygon> free = subtract(intersect({face}, {{ringOf(middle), {}}}), used);
    if (free.empty()) return;
    const auto largest = std::max_element(
        free.begin(), free.end(), [](const Polygon& a, const Polygon& b) { return area(a) < area(b); });
    drawName(panel, *largest, pen, {most, 2.5});
}

/// Every edge says on every page what meets it.
void nameEdges(const Panel& panel, const TilePlan& plan, const Vec2& shift, const Pen& pen) {
    const Vec2 inset(plan.border + plan.overlap, plan.border + plan.overlap);
    const Vec2 low = inset, high = Vec2(plan.pageWidth, plan.pageHeight) - inset;
    const Ring& outline = panel.boundary.outer;
    for (const EdgeRow& row : edgeRows(panel)) {
        const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
        if (edge >= outline.size()) continue;
        const auto seen =
            partInside(outline[edge] + shift, outline[(edge + 1) % outline.size()] + shift, low, high);
        if (seen) drawEdgeWords(panel, row, seen->first, seen->second, pen);
    }
}

Page tilePage(const Panel& panel, const Group& group, const TilePlan& plan, int column, int row,
              CardFacts facts, const TemplateOptions& options) {
    const Vec2 p = plan.printable();
    Page page;
    page.name = plan.columns * plan.rows == 1 ? panel.name : panel.name + " " + plan.tileName(column, row);
    page.chapter = panel.name;
    page.width = plan.pageWidth;
    page.height = plan.pageHeight;
    page.groups = {group};
    page.shift = Vec2(plan.border, plan.border) - plan.corner(column, row);
    // Half a line more than the frame, so that a cut line on the very border keeps its width.
    page.clip = std::array{plan.border - 0.25, plan.border - 0.25, p.x() + 0.5, p.y() + 0.5};
    page.overlay.id = "page " + plan.tileName(column, row);
    page.overlay.layers = {{"register", {}, {}, {}, {}},
                           {"bars", {}, {}, {}, {}},
                           {"card", {}, {}, {}, {}},
                           {"name", {}, {}, {}, {}},
                           {"words", {}, {}, {}, {}}};
    drawFrame(plan, column, row, Pen(page.overlay.layers[0]));
    nameEdges(panel, plan, page.shift, Pen(page.overlay.layers[4]));
    Clutter clutter;
    for (const Ring& ring : drawnRings(panel)) clutter.add(ring, page.shift, true);
    std::vector<Area> words;
    for (const Label& label : page.overlay.layers[4].labels) words.push_back(labelArea(label));
    for (const Layer& layer : group.layers)
        for (const Label& label : layer.labels) {
            const Area area = labelArea(label);
            words.push_back({area.x + page.shift.x(), area.y + page.shift.y(), area.width, area.height});
        }
    for (const Area& area : words) clutter.add(ringOf(area), Vec2::Zero(), true);
    std::vector<Area> taken = drawBars(plan, options.units, clutter, Pen(page.overlay.layers[1]));
    const Polygon face = shifted(faceArea(panel), page.shift);
    const Area card = placeCard(plan, cardSize(facts), clutter, taken, face);
    drawCard(Pen(page.overlay.layers[2]), card, facts);
    taken.push_back(card);
    taken.insert(taken.end(), words.begin(), words.end());
    nameTile(panel, face, plan, taken, Pen(page.overlay.layers[3]));
    return page;
}

/// Templates are printed without tint, and the name goes on each tile instead of across them.
Group linesOnly(Group group) {
    const auto isTint = [](const Fill& f) { return f.ink == Ink::paper || f.ink == Ink::pale; };
    const auto isPale = [](const auto& item) { return item.ink == Ink::pale; };
    std::erase_if(group.layers, [](const Layer& layer) { return layer.name == "words"; });
    for (Layer& layer : group.layers) {
        std::erase_if(layer.fills, isTint);
        std::erase_if(layer.strokes, isPale);
        std::erase_if(layer.labels, isPale);
    }
    return group;
}

} // namespace

std::vector<Page> templatePages(const Panel& panel, const TemplateOptions& options) {
    const std::vector<Ring> rings = drawnRings(panel);
    if (rings.empty()) return {};
    const Group group = linesOnly(panelGroup(panel, Ink::paper));
    const TilePlan plan = planTiles(rings, options);
    CardFacts facts{&panel, &plan, options, 0, 0, 0, plan.printedCount()};
    std::vector<Page> pages;
    for (int row = plan.rows - 1; row >= 0; --row)
        for (int column = 0; column < plan.columns; ++column) {
            if (!plan.isPrinted(column, row)) continue;
            facts.column = column;
            facts.row = row;
            ++facts.number;
            pages.push_back(tilePage(panel, group, plan, column, row, facts, options));
        }
    return pages;
}

} // namespace slab
