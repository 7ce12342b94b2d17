#include "core/frames/outlines.h"
#include "core/frames/clean_outline.h"
#include "core/frames/section.h"
#include "core/geometry/round_offset.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab::frames {

namespace {

constexpr double off = 1e-5; ///< mm: kept free so that rounding to the grid never makes an overlap

/// The box that holds a board of these outlines, body axes.
Box3 boxOf(const std::vector<Polygon>& regions, const BoardSlab& slab) {
    constexpr double far = 1e300, rounding = 1; // mm
    Box3 box{Vec3::Constant(far), Vec3::Constant(-far)};
    for (const Polygon& p : regions)
        for (const Vec2& q : p.outer)
            for (const double w : {-slab.half, slab.half}) {
                const Vec3 at = slab.frame.toBody(Vec3(q.x(), q.y(), w));
                box.min = box.min.cwiseMin(at);
                box.max = box.max.cwiseMax(at);
            }
    box.min.array() -= rounding;
    box.max.array() += rounding;
    return box;
}

/// Beside larger pieces, one that is nowhere as wide as its board is thick is no board of its own.
bool isLath(const Polygon& piece, double thickness) {
    constexpr double rounding = 0.05; // mm
    const double radius = std::max(thickness / 2 - rounding, 0.0);
    // All of a region lies within its largest disc's radius of its border, so that area ≤ radius · length.
    double around = 0;
    const auto walk = [&](const Ring& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i)
            around += (ring[(i + 1) % ring.size()] - ring[i]).norm();
    };
    walk(piece.outer);
    for (const Ring& hole : piece.holes) walk(hole);
    if (area(piece) > (radius + rounding) * around) return false;
    return roundOffset({piece}, -radius).empty();
}

/// Cuts the frame's openings; one that finds nothing to cut is told.
void cutOpenings(const FrameChoice& c, std::vector<Polygon>& regions, FrameSet& set) {
    if (regions.empty()) return;
    const auto largest = std::max_element(regions.begin(), regions.end(),
                                          [](const auto& a, const auto& b) { return area(a) < area(b); });
    const Box2 box = bounds(largest->outer);
    const Vec2 middle = (box.min + box.max) / 2;
    for (const FrameOpening& o : c.openings) {
        Ring ring = o.outline;
        if (o.hosted)
            for (Vec2& p : ring) p += middle + o.at;
        const double before = areaOf(regions);
        regions = subtract(regions, {{ring, {}}});
        if (areaOf(regions) < before - 1) continue; // mm²
        set.findings.push_back({Severity::look,
                                "opening-misses",
                                "Opening " + o.name + " cuts nothing of frame " + c.name + ".",
                                {"opening:" + o.name, "frame:" + c.name},
                                "Move it onto the board, or correct the name of its plate.",
                                {}});
    }
}

/// Motion of the plates that line most of a region's edge.
int liningCarrier(const Polygon& region, const PlateList& plates, const BoardSlab& slab,
                  const PlateCarrier& carrier) {
    constexpr double near = 0.05; // mm
    const std::vector<Polygon> edge = subtract(roundOffset({region}, near), {region});
    const double whole = areaOf(edge);
    std::map<int, double> lined;
    for (const Plate& plate : plates) {
        std::vector<Polygon> shadow;
        for (const ConvexSolid& cell : plate.cells)
            for (Polygon& p : shadowOf(cell, slab, 0)) shadow.push_back(std::move(p));
        if (shadow.empty()) continue;
        const double length = whole - areaOf(subtract(edge, shadow));
        if (length > 0) lined[carrier(plate.name)] += length;
    }
    int most = -1;
    double longest = lined.empty() ? 0 : lined[-1];
    for (const auto& [motion, length] : lined)
        if (length > longest) {
            longest = length;
            most = motion;
        }
    return most;
}

/// What of a region is left by solids that the frame stays clear of.
void takeShadows(const FrameChoice& c, const std::vector<Polygon>& regions,
                 const std::vector<FitSolid>& solids, std::vector<Polygon>& taken) {
    const BoardSlab slab{c.place, c.thickness / 2};
    const Box3 here = boxOf(regions, slab);
    for (const FitSolid& s : solids) {
        const double wanted = s.group == "form" ? s.clearance : c.clearance.value_or(s.clearance);
        const double room = wanted + s.bulge;
        const Box3 there = bounds(s.shape);
        const double reach = room + 0.02 * s.shape.radius; // facets are drawn round what is round
        if (((there.min.array() - reach) > here.max.array()).any() ||
            ((there.max.array() + reach) < here.min.array()).any())
            continue;
        for (Polygon& p : shadowOf(s.shape, slab, room)) taken.push_back(std::move(p));
    }
}

} // namespace

void tell(FrameSet& set, const FrameChoice& c, Severity severity, std::string code,
          const std::string& message, std::string remedy) {
    set.findings.push_back({severity,
                            std::move(code),
                            "Frame " + c.name + ": " + message + ".",
                            {"frame:" + c.name, "document:/frames/" + std::to_string(c.index)},
                            std::move(remedy),
                            {}});
}

double areaOf(const std::vector<Polygon>& regions) {
    double sum = 0;
    for (const Polygon& p : regions) sum += area(p);
    return sum;
}

/// What is too thin or too small to hold is cut away, and told where that is worth a word.
/// @param by  what leaves it: "its slots leave"
std::vector<Polygon> withoutScrap(const FrameChoice& c, const std::vector<Polygon>& regions,
                                  const std::string& by, FrameSet& set, const UnitStyle& units) {
    constexpr double rounding = 2, worth = 5; // mm², mm
    std::vector<Polygon> kept = withoutShortEdges(withoutSlivers(regions));
    std::erase_if(kept, [](const Polygon& p) { return area(p) < leastPiece; });
    const auto lath = [&](const Polygon& p) { return isLath(p, c.thickness); };
    if (!std::all_of(kept.begin(), kept.end(), lath)) std::erase_if(kept, lath);
    Box2 largest;
    int count = 0;
    for (const Polygon& lost : subtract(regions, kept)) {
        const Box2 box = bounds(lost.outer);
        // Edges that were straightened are no pieces.
        if (area(lost) < std::max(rounding, leastEdge * box.size().norm()) || box.size().norm() < worth)
            continue;
        if (++count == 1 || box.size().norm() > largest.size().norm()) largest = box;
    }
    if (count > 0)
        tell(set, c, Severity::note, "frame-scrap",
             (count == 1 ? std::string("a piece of ") : std::to_string(count) + " pieces, up to ") +
                 printFine(largest.size().x(), units) + " × " + printFine(largest.size().y(), units) +
                 (count == 1 ? " that " + by + " is" : ", that " + by + " are") +
                 " too small to hold and cut away",
             "Where that matters, move a frame so that more is left there.");
    return kept;
}

int Room::carrierOf(const Polygon& board) const {
    const bool anyMoves =
        std::any_of(parts.begin(), parts.end(), [](const Part& p) { return p.carrier >= 0; });
    if (!anyMoves) return -1;
    for (const Part& part : parts)
        if (areaOf(subtract({board}, {part.region})) < area(board) / 2) return part.carrier;
    return -1;
}

Room roomOf(const FrameChoice& c, const Skin& skin, const PlateList& plates, const PlateCarrier& carrier) {
    const BoardSlab slab{c.place, c.thickness / 2};
    const bool anyMoves =
        std::any_of(plates.begin(), plates.end(), [&](const Plate& p) { return carrier(p.name) >= 0; });
    Room room;
    for (int body = 0; body < skin.bodies; ++body)
        for (const Polygon& p : insideSection(toPolyhedron(skin, body), plates, slab)) {
            const auto inset = offset(p, -(c.gap + off));
            if (inset.empty()) continue;
            const int motion = anyMoves ? liningCarrier(p, plates, slab, carrier) : -1;
            for (const Polygon& region : inset) room.parts.push_back({region, motion});
        }
    return room;
}

std::vector<Polygon>
outlineOf(const FrameChoice& c, const Room& room,
          const std::function<std::vector<const std::vector<FitSolid>*>(int carrier)>& clear,
          const UnitStyle& units, FrameSet& set) {
    std::map<int, std::vector<Polygon>> byCarrier;
    std::vector<Polygon> regions;
    for (const Room::Part& part : room.parts) {
        byCarrier[part.carrier].push_back(part.region);
        regions.push_back(part.region);
    }
    FrameFact fact{c.name, areaOf(regions), 0, 0, 0, c.web};
    if (regions.empty()) {
        tell(set, c, Severity::look, "frame-misses", "its plane finds no room inside the shell",
             "Move its station to where the body is, or turn its plane.");
        return {};
    }
    regions.clear();
    bool cut = false;
    for (auto& [carrier, own] : byCarrier) {
        std::vector<Polygon> taken;
        for (const std::vector<FitSolid>* solids : clear(carrier)) takeShadows(c, own, *solids, taken);
        cut = cut || !taken.empty();
        if (!taken.empty()) own = subtract(own, unite(taken));
        regions.insert(regions.end(), own.begin(), own.end());
    }
    cutOpenings(c, regions, set);
    regions = withoutScrap(c, regions, cut ? "shell, donor and rider leave" : "the shell leaves", set, units);
    if (regions.empty())
        tell(set, c, Severity::look, "frame-empty", "donor and rider leave nothing of it",
             "Move its station, or ask for less clearance.");
    else
        set.frames.push_back(fact);
    return regions;
}

} // namespace slab::frames
