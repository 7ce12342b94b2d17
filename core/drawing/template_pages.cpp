#include "core/drawing/bars.h"
#include "core/drawing/contact_ink.h"
#include "core/drawing/copy_table.h"
#include "core/drawing/fold_ink.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include "core/drawing/tile_card.h"
#include "core/drawing/tiles.h"
#include <algorithm>
#include <numbers>
#include <optional>

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
    [[nodiscard]] bool crosses(const Area& area) const {
        return std::any_of(segments.begin(), segments.end(), [&](const auto& s) {
            return partInside(s.first, s.second, {area.x, area.y}, {area.right(), area.top()}).has_value();
        });
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

/// Inch bars mark 100 mm on the other side.
double barUnder(bool inch) {
    return inch ? 4.6 : 0.6;
}

/// What a bar with its words covers, drawn from `at`.
Area barArea(const Vec2& at, double length, bool upright, bool flip, bool inch) {
    const double over = barDepth, under = barUnder(inch);
    const double low = flip ? over : under, depth = over + under;
    // Along y the left side is towards -x.
    return upright ? Area{at.x() - (flip ? under : over), at.y() - 0.5, depth, length + 1}
                   : Area{at.x() - 0.5, at.y() - low, length + 1, depth};
}

/// A bar where it crosses nothing.
struct BarPlace {
    Vec2 at = Vec2::Zero();
    double length = 0;
    bool upright = false, flip = false;
    Area area;
};

/// A place for one bar that crosses nothing, as long as can be, near a side of the page first.
std::optional<BarPlace> freeBar(const TilePlan& plan, bool inch, const Clutter& clutter, bool upright,
                                const std::vector<Area>& taken, const UnitStyle& units) {
    const Vec2 p = plan.printable();
    const double inset = barInset(plan), unit = inch ? 25.4 : 50;
    const double run = upright ? p.y() : p.x(), depth = upright ? p.x() : p.y();
    const double step = std::max(3.0, depth / 100), slide = std::max(4.0, run / 60);
    const double least = inset + 1.5; // clear of the crosses in the corners
    const auto isFree = [&](const Area& area) {
        return !clutter.crosses(area.grown(1)) &&
               std::none_of(taken.begin(), taken.end(),
                            [&](const Area& other) { return other.meets(area.grown(0.5)); });
    };
    for (double length = barLength(run - 2 * barStart, units); length >= 100 - 1e-9; length -= unit)
        for (double off = inset + barUnder(inch) + 0.5; off <= depth / 2; off += step)
            for (const bool far : {false, true})
                for (double start = length > 110 ? barStart : least; start + length <= run - least + 1e-9;
                     start += slide) {
                    const double across = plan.border + (far ? depth - off : off);
                    const Vec2 at =
                        upright ? Vec2(across, plan.border + start) : Vec2(plan.border + start, across);
                    // Words stand towards the middle of the page.
                    const bool flip = upright ? !far : far;
                    const Area area = barArea(at, length, upright, flip, inch);
                    if (isFree(area)) return BarPlace{at, length, upright, flip, area};
                }
    return {};
}

/// Bars in both axes where there is room for 100 mm of them.
std::vector<BarPlace> freeBars(const TilePlan& plan, const UnitStyle& units, const Clutter& clutter,
                               std::vector<Area> taken) {
    std::vector<BarPlace> bars;
    for (const bool upright : {false, true})
        if (const auto bar = freeBar(plan, isInch(units), clutter, upright, taken, units)) {
            taken.push_back(bar->area);
            bars.push_back(*bar);
        }
    return bars;
}

/// The emptiest place for a card: least cut line under it, then off the panel, then near a corner.
Area placeCard(const TilePlan& plan, const Vec2& card, const Clutter& clutter, bool inch, const Polygon& face,
               const std::vector<Area>& taken) {
    const double gap = barInset(plan) + barDepth + barUnder(inch) + 1.5; // the bars run along the sides
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
            for (const Area& other : taken)
                if (other.meets(area.grown(1))) cost += 1e6;
            if (contains(face, Vec2(area.x + area.width / 2, area.y + area.height / 2))) cost += 1;
            cost += 1e-3 * (std::min(i, stepsX - i) + std::min(j, stepsY - j));
            if (cost < least - 1e-9) {
                least = cost;
                best = area;
            }
        }
    return best;
}

/// What stands on every template page beside the drawing.
struct Furniture {
    Area card;
    std::vector<BarPlace> bars;
};

/// Card first, as the larger thing; on a crowded page the bars first, as long as that costs the card nothing.
Furniture furnish(const TilePlan& plan, const Vec2& card, const Clutter& clutter, const UnitStyle& units,
                  const Polygon& face) {
    const bool inch = isInch(units);
    Furniture first{placeCard(plan, card, clutter, inch, face, {}), {}};
    first.bars = freeBars(plan, units, clutter, {first.card});
    if (first.bars.size() == 2) return first;
    Furniture second{{}, freeBars(plan, units, clutter, {})};
    std::vector<Area> taken;
    for (const BarPlace& bar : second.bars) taken.push_back(bar.area);
    second.card = placeCard(plan, card, clutter, inch, face, taken);
    const bool apart =
        std::none_of(taken.begin(), taken.end(), [&](const Area& bar) { return bar.meets(second.card); });
    const bool better = second.bars.size() > first.bars.size() && apart &&
                        clutter.lengthIn(second.card) <= clutter.lengthIn(first.card) + 1;
    return better ? second : first;
}

Polygon shifted(Polygon area, const Vec2& by) {
    for (Vec2& p : area.outer) p += by;
    for (Ring& hole : area.holes)
        for (Vec2& p : hole) p += by;
    return area;
}

/// The name inside the part on every page, so that each scrap of paper says where it belongs.
void nameTile(const Panel& panel, const Polygon& face, const TilePlan& plan, const Vec2& shift,
              const std::vector<Area>& taken, const Pen& pen) {
    const Vec2 p = plan.printable();
    const double most = std::clamp(0.07 * std::min(p.x(), p.y()), 8.0, 60.0);
    std::vector<Polygon> used;
    for (const Area& area : taken) used.push_back({ringOf(area.grown(1)), {}});
    for (const PanelFold& fold : panel.folds)
        used.push_back({foldStrip(fold.from + shift, fold.to + shift, 6 + grooveAside(fold)), {}});
    for (const ContactSpot& spot : contactSpots(panel))
        for (Ring& band : contactBands(spot, {1, shift}, 2)) used.push_back({std::move(band), {}});
    const double inset = plan.overlap + 1;
    const Area middle{plan.border + inset, plan.border + inset, p.x() - 2 * inset, p.y() - 2 * inset};
    std::vector<Polygon> free = subtract(intersect({face}, {{ringOf(middle), {}}}), used);
    if (free.empty()) return;
    const auto largest = std::max_element(
        free.begin(), free.end(), [](const Polygon& a, const Polygon& b) { return area(a) < area(b); });
    drawName(panel, *largest, pen, {most, 2.5});
}

/// What is clear of the overlaps with other pages.
Area clearArea(const TilePlan& plan, int column, int line) {
    const auto inset = [&](int dc, int dr) {
        return plan.border + (plan.isPrinted(column + dc, line + dr) ? plan.overlap : 0);
    };
    const double x = inset(-1, 0), y = inset(0, -1);
    return {x, y, plan.pageWidth - inset(1, 0) - x, plan.pageHeight - inset(0, 1) - y};
}

/// Every edge says on every page what meets it, and every fold how far it is folded.
void nameEdges(const Panel& panel, const Area& clear, const Vec2& shift, const UnitStyle& units,
               const Pen& pen) {
    const Vec2 low(clear.x, clear.y), high(clear.right(), clear.top());
    for (const EdgeRow& row : edgeRows(panel)) {
        const Ring& outline = loopOf(panel, row).outer;
        const auto edge = static_cast<std::size_t>((row.first + row.last) / 2);
        if (edge >= outline.size()) continue;
        const auto seen =
            partInside(outline[edge] + shift, outline[(edge + 1) % outline.size()] + shift, low, high);
        if (seen) drawEdgeWords(panel, row, seen->first, seen->second, pen);
    }
    for (const PanelFold& fold : panel.folds)
        if (const auto seen = partInside(fold.from + shift, fold.to + shift, low, high))
            drawFoldWords(fold, seen->first, seen->second, units, pen);
}

/// The marks of the copies, where they cross nothing. @return false if this page has no such place
bool drawCopies(const Panel& panel, const TilePlan& plan, const Clutter& clutter, std::vector<Area>& taken,
                const Pen& pen) {
    const std::vector<Table> tables = copyTables(panel, edgeRows(panel));
    const Vec2 size = copyTableSize(panel, tables), p = plan.printable();
    const double gap = barInset(plan) + 1.5, step = 5;
    for (double y = p.y() - gap - size.y(); y >= gap; y -= step)
        for (double x = gap; x + size.x() <= p.x() - gap; x += step) {
            const Area area{plan.border + x, plan.border + y, size.x(), size.y()};
            const bool free = std::none_of(taken.begin(), taken.end(),
                                           [&](const Area& other) { return other.meets(area.grown(1)); });
            if (!free || clutter.crosses(area.grown(1.5))) continue;
            (void)setTables(pen, {area}, tables); // as large as they need
            taken.push_back(area);
            return true;
        }
    return false;
}

/// @param tables  in: what is to be told; out: what is still left
Page copiesPage(const Panel& panel, const TilePlan& plan, std::vector<Table>& tables) {
    Page page;
    page.name = panel.name + " marks";
    page.chapter = panel.name;
    page.width = plan.pageWidth;
    page.height = plan.pageHeight;
    page.overlay.id = "copies";
    page.overlay.layers = {{"copies", {}, {}, {}, {}}};
    const Pen pen(page.overlay.layers[0]);
    const Vec2 p = plan.printable();
    const double width = std::min(p.x(), copyTableSize(panel, tables).x());
    pen.words({plan.border, plan.border + p.y() - 6}, panel.name, {4, Align::left, Ink::line, true});
    tables = setTables(pen, {{plan.border, plan.border, width, p.y() - 12}}, tables).rest;
    return page;
}

Page tilePage(const Panel& panel, const Group& group, const TilePlan& plan, int column, int row,
              CardFacts facts, const TemplateOptions& options, bool& copiesTold) {
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
    const Area clear = clearArea(plan, column, row);
    nameEdges(panel, clear, page.shift, options.units, Pen(page.overlay.layers[4]));
    nameContacts(panel, {plan.border, plan.border, p.x(), p.y()}, clear, page.shift, page.overlay.layers[4]);
    Clutter clutter;
    for (const Ring& ring : drawnRings(panel)) clutter.add(ring, page.shift, true);
    for (const ContactSpot& spot : contactSpots(panel))
        for (const Ring& ring : spot.rings) clutter.add(ring, page.shift, true);
    for (const GuideLine& guide : panel.guides) clutter.add({guide.from, guide.to}, page.shift, false);
    std::vector<Area> words;
    for (const Label& label : page.overlay.layers[4].labels) words.push_back(labelArea(label));
    for (const Layer& layer : group.layers)
        for (const Label& label : layer.labels) {
            const Area area = labelArea(label);
            words.push_back({area.x + page.shift.x(), area.y + page.shift.y(), area.width, area.height});
        }
    for (const Area& area : words) clutter.add(ringOf(area), Vec2::Zero(), true);
    const Polygon face = shifted(faceArea(panel), page.shift);
    const Furniture furniture = furnish(plan, cardSize(facts), clutter, options.units, face);
    drawCard(Pen(page.overlay.layers[2]), furniture.card, facts);
    std::vector<Area> taken{furniture.card};
    for (const BarPlace& bar : furniture.bars) {
        drawBar(Pen(page.overlay.layers[1]), bar.at, bar.length, options.units,
                {bar.upright, bar.flip, "measure before cutting"});
        taken.push_back(bar.area);
    }
    if (!copiesTold) copiesTold = drawCopies(panel, plan, clutter, taken, Pen(page.overlay.layers[2]));
    taken.insert(taken.end(), words.begin(), words.end());
    nameTile(panel, face, plan, page.shift, taken, Pen(page.overlay.layers[3]));
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

TilePlan templatePlan(const Panel& panel, const TemplateOptions& options) {
    std::vector<Ring> onPaper = drawnRings(panel);
    if (onPaper.empty()) return {};
    for (const ContactSpot& spot : contactSpots(panel))
        for (const Ring& ring : spot.rings)
            for (const Vec2& p : ring) onPaper.push_back({p, p + (centroid({ring, {}}) - p).normalized()});
    for (const GuideLine& guide : panel.guides) onPaper.push_back({guide.from, guide.to});
    return planTiles(onPaper, options);
}

std::vector<Page> templatePages(const Panel& panel, const TemplateOptions& options) {
    const TilePlan plan = templatePlan(panel, options);
    if (plan.printedCount() == 0) return {};
    const Group group = linesOnly(panelGroup(panel, Ink::paper));
    CardFacts facts{&panel, &plan, options, 0, 0, 0, plan.printedCount()};
    std::vector<Page> pages;
    bool copiesTold = rowsByCopy(edgeRows(panel)).empty();
    for (int row = plan.rows - 1; row >= 0; --row)
        for (int column = 0; column < plan.columns; ++column) {
            if (!plan.isPrinted(column, row)) continue;
            facts.column = column;
            facts.row = row;
            ++facts.number;
            pages.push_back(tilePage(panel, group, plan, column, row, facts, options, copiesTold));
        }
    if (copiesTold) return pages;
    // Where no template page has room for the marks of the copies, they get pages of their own.
    for (std::vector<Table> rest = copyTables(panel, edgeRows(panel)); !rest.empty();)
        pages.push_back(copiesPage(panel, plan, rest));
    return pages;
}

} // namespace slab
