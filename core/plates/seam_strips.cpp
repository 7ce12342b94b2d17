#include "core/plates/seam_strips.h"
#include "core/plates/behind.h"
#include "core/plates/lofted.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

Vec2 unturned(const Turn& turn, const Vec2& p) {
    const Vec2 d = p - turn.to;
    return turn.from + Vec2(turn.c * d.x() + turn.s * d.y(), turn.c * d.y() - turn.s * d.x());
}

/// The whole width of the strip along one stretch of the seam, panel coordinates, counter-clockwise.
Ring band(const CutLine& line, double from, double to, double width) {
    const Vec2 foot = line.normal * line.offset, along = line.along(), half = line.normal * (width / 2);
    return {foot + along * from - half, foot + along * from + half, foot + along * to + half,
            foot + along * to - half};
}

/// Least area of the strip that lies on either side of the seam.
double lessSide(const Polygon& area, const CutLine& line, double from, double to, double width) {
    double least = slab::area(area);
    for (const double side : {-0.5, 0.5}) {
        const CutLine middle{line.normal, line.offset + side * width / 2};
        double on = 0;
        for (const Polygon& p : intersect({area}, {{band(middle, from, to, width / 2), {}}}))
            on += slab::area(p);
        least = std::min(least, on);
    }
    return least;
}

/// Length of the line that the area covers.
double bridged(const Polygon& area, const CutLine& line) {
    TracedPolygon face;
    face.outer.points = area.outer;
    for (const Ring& hole : area.holes) face.holes.push_back({hole, {}});
    double sum = 0;
    for (const auto& [from, to] : crossings(face, line)) sum += to - from;
    return sum;
}

Polygon turnedBack(const Polygon& area, const Turn& turn) {
    Polygon out = area;
    for (Vec2& p : out.outer) p = unturned(turn, p);
    for (Ring& hole : out.holes)
        for (Vec2& p : hole) p = unturned(turn, p);
    return out;
}

} // namespace

std::vector<CopyPlace> copyPlaces(const Panel& panel, const PlateSet& plates) {
    const Shape whole = shapeOf(panel, false);
    std::vector<CopyPlace> out;
    for (const std::string& name : panel.plates) {
        CopyPlace place;
        const auto plate = std::find_if(plates.plates.begin(), plates.plates.end(),
                                        [&](const Plate& p) { return p.name == name; });
        if (plate != plates.plates.end()) {
            Panel own;
            own.boundary = plate->boundary;
            own.holes = plate->holes;
            own.thickness = plate->thickness;
            if (const auto match = congruent(shapeOf(own, false), whole)) {
                place.plate = &*plate;
                place.turn = match->turn;
            }
        }
        out.push_back(place);
    }
    if (!out.empty()) out.front().turn = {}; // a panel has its first plate's coordinates
    return out;
}

std::vector<Ring> framesBehind(const Panel& panel, const PlateSet& plates) {
    constexpr double near = 2; // mm: a frame that is so close stands there
    std::vector<Ring> out;
    for (const CopyPlace& copy : copyPlaces(panel, plates)) {
        if (!copy.plate) continue;
        for (const Plate& frame : plates.plates) {
            if (!frame.form.starts_with("frames/")) continue;
            Ring foot;
            for (const Vec3& p : frame.solid.vertices) {
                const Vec3 q = copy.plate->frame.toLocal(p);
                if (std::abs(q.z() + panel.thickness) < near) foot.push_back(copy.turn(q.head<2>()));
            }
            const Box2 box = foot.empty() ? Box2{} : slab::bounds(foot);
            const Box2 face = slab::bounds(panel.boundary.inner);
            const bool beside =
                foot.size() < 2 || (box.min - face.max).maxCoeff() > 0 || (face.min - box.max).maxCoeff() > 0;
            if (!beside) out.push_back(std::move(foot));
        }
    }
    return out;
}

std::vector<MadeStrip> stripsBehind(const MadeCut& cut, const CopyPlace& place, const StripRules& rules,
                                    const PlateList& before) {
    std::vector<MadeStrip> out;
    if (!place.plate || !(rules.width > 0) || !(rules.thickness > 0)) return out;
    const Plate& host = *place.plate;
    std::vector<Polygon> free = freeBehind(host, before, {rules.thickness, 2, {}});
    for (Polygon& area : free) {
        for (Vec2& p : area.outer) p = place.turn(p);
        for (Ring& hole : area.holes)
            for (Vec2& p : hole) p = place.turn(p);
    }
    for (const auto& [from, to] : cut.inner)
        for (const Polygon& area : intersect({{band(cut.line, from, to, rules.width), {}}}, free)) {
            const double length = bridged(area, cut.line);
            if (length < rules.width / 2) continue;
            // It has to hold both pieces: by a quarter of its width at least.
            if (lessSide(area, cut.line, from, to, rules.width) < length * rules.width / 4) continue;
            Loft loft;
            loft.name = host.name;
            loft.form = host.form;
            loft.stock = rules.stock;
            loft.thickness = rules.thickness;
            loft.frame = host.frame;
            loft.frame.origin -= host.frame.axes.col(2) * host.thickness;
            loft.outer = turnedBack(area, place.turn);
            auto plate = loftedPlate(loft);
            if (!plate) continue;
            plate->rank = host.rank;
            out.push_back({std::move(*plate), 0, area});
        }
    return out;
}

} // namespace slab::plates
