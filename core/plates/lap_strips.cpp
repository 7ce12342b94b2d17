#include "core/plates/lap_strips.h"
#include "core/plates/behind.h"
#include "core/plates/lids.h"
#include "core/plates/lofted.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr std::size_t mostSides = 8;

/// A strip for each side, mitred at the corners; nothing for a curved outline.
std::vector<Polygon> straightStrips(const Ring& ring, double half) {
    if (ring.size() > mostSides) return {};
    for (std::size_t i = 0; i < ring.size(); ++i)
        if ((ring[(i + 1) % ring.size()] - ring[i]).norm() < 2 * half) return {};
    const auto in = insetBySide(ring, std::vector<double>(ring.size(), half));
    const auto out = insetBySide(ring, std::vector<double>(ring.size(), -half));
    if (!in || !out) return {};
    std::vector<Polygon> strips;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const std::size_t k = (i + 1) % ring.size();
        strips.push_back({{(*out)[i], (*out)[k], (*in)[k], (*in)[i]}, {}});
    }
    return strips;
}

Polygon boxOf(const Box2& box) {
    return {{box.min, {box.max.x(), box.min.y()}, box.max, {box.min.x(), box.max.y()}}, {}};
}

/// Halves what no sheet holds until each part fits.
void cutToFit(const Polygon& part, const SheetRoom& room, int depth, std::vector<Polygon>& out) {
    if (fitsSheet(part.outer, room) || depth > 6) return out.push_back(part);
    const Box2 box = slab::bounds(part.outer);
    const int way = box.size().x() >= box.size().y() ? 0 : 1;
    Box2 low = box, high = box;
    low.max[way] = high.min[way] = (box.min[way] + box.max[way]) / 2;
    for (const Box2& side : {low, high})
        for (const Polygon& half : intersect({part}, {boxOf(side)})) cutToFit(half, room, depth + 1, out);
}

std::vector<Polygon> ringParts(const Ring& ring, double half, const SheetRoom& room) {
    std::vector<Polygon> parts;
    for (const Polygon& whole : subtract(offset({ring, {}}, half), offset({ring, {}}, -half)))
        cutToFit(whole, room, 0, parts);
    return parts;
}

} // namespace

std::vector<LapStrip> lapStrips(const Plate& host, const PanelLoop& hole, const LapRules& rules,
                                const PlateList& others, const SheetRoom& room, int* bare) {
    if (hole.inner.size() < 3 || !(rules.thickness > 0)) return {};
    const Ring ring = reversed(hole.inner);
    std::vector<Polygon> wanted = straightStrips(ring, rules.width / 2);
    if (wanted.empty()) wanted = ringParts(ring, rules.width / 2, room);
    Plate solid = host; // what it is to lie behind, as if it had no such opening
    std::erase_if(solid.holes, [&](const PanelLoop& l) { return l.inner == hole.inner; });
    const std::vector<Polygon> free = freeBehind(solid, others, {rules.thickness, 2, {}});
    std::vector<LapStrip> out;
    for (const Polygon& strip : wanted) {
        const std::size_t before = out.size();
        for (const Polygon& part : intersect({strip}, free)) {
            if (area(part) < rules.width * rules.width / 2) continue; // a scrap holds nothing
            Loft loft;
            loft.form = host.form;
            loft.stock = rules.stock;
            loft.thickness = rules.thickness;
            loft.frame = host.frame;
            loft.frame.origin -= host.frame.axes.col(2) * host.thickness;
            loft.outer = part;
            auto plate = loftedPlate(loft);
            if (!plate) continue;
            plate->rank = host.rank;
            LapStrip made{std::move(*plate), {}};
            double held = 0;
            for (const Polygon& on : slab::subtract({part}, {{ring, {}}})) {
                held += area(on);
                made.behind.push_back(on.outer);
                made.behind.insert(made.behind.end(), on.holes.begin(), on.holes.end());
            }
            // Else the plate does not hold it, or it does not hold the lid.
            const double least = area(part) / 4;
            if (held >= least && held <= area(part) - least) out.push_back(std::move(made));
        }
        if (bare && out.size() == before) ++*bare;
    }
    return out;
}

int highestMark(const PlateSet& plates) {
    int most = 0;
    for (const JointInfo& j : plates.joints) most = std::max(most, j.mark);
    for (const Plate& plate : plates.plates) {
        for (const PanelEdge& e : plate.boundary.edges) most = std::max(most, e.mark);
        for (const PanelEdge& e : plate.boundary.extraInner) most = std::max(most, e.mark);
        for (const PanelLoop& hole : plate.holes)
            for (const PanelEdge& e : hole.edges) most = std::max(most, e.mark);
        for (const Contact& c : plate.contacts) most = std::max(most, c.mark);
        for (const FaceRest& r : plate.rests) most = std::max(most, r.mark);
    }
    return most;
}

void addBehindMark(PlateSet& set, const PlateList& parts, std::size_t i, int last) {
    set.plates.share(parts, i);
    const auto marked = [](const PanelLoop& loop) {
        return std::any_of(loop.edges.begin(), loop.edges.end(),
                           [](const PanelEdge& e) { return e.mark > 0; });
    };
    const Plate& part = parts[i];
    if (last == 0 || (!marked(part.boundary) && std::none_of(part.holes.begin(), part.holes.end(), marked)))
        return;
    Plate& own = set.plates.own(set.plates.size() - 1);
    const auto shift = [last](PanelLoop& loop) {
        for (PanelEdge& e : loop.edges)
            if (e.mark > 0) e.mark += last;
    };
    shift(own.boundary);
    for (PanelLoop& hole : own.holes) shift(hole);
}

} // namespace slab::plates
