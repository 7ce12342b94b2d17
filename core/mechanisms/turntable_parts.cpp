// Plates of a turntable: the rings, and a drum of plates.
#include "core/mechanisms/part.h"
#include "core/mechanisms/turntable.h"
#include "core/plates/facets.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::mechanisms {

namespace {

using std::numbers::pi;

/// Corners on a circle of `radius`, counter-clockwise, the first at angle `start`.
Ring corners(double radius, int count, double start = 0) {
    Ring ring;
    for (int i = 0; i < count; ++i) {
        const double a = start + 2 * pi * i / count;
        ring.emplace_back(radius * std::cos(a), radius * std::sin(a));
    }
    return ring;
}
double outside(double radius, int count) {
    return radius / std::cos(pi / count);
}

PartShape partOf(const TurntableFigures& t, const std::string& part, const Sheet& sheet, double upperFace) {
    PartShape s;
    s.name = t.name + "/" + part;
    s.form = t.name;
    s.stock = sheet.name;
    s.thickness = sheet.thickness;
    s.at = t.frame;
    s.at.origin = t.onAxis(upperFace);
    return s;
}

PanelEdge meeting(const std::string& neighbour, EdgeRole role, double dihedral, int mark) {
    PanelEdge e;
    e.neighbour = neighbour;
    e.role = role;
    e.dihedral = dihedral;
    e.mark = mark;
    return e;
}

/// Wedges between the facets from corner `first` to corner `last`.
void addWedges(PartShape& s, const Ring& inner, const Ring& rim, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
        const std::size_t a = i % rim.size(), b = (i + 1) % rim.size();
        s.pieces.push_back({inner[a], rim[a], rim[b]});
        if (inner[a] != inner[b]) s.pieces.back().push_back(inner[b]);
    }
}

/// A round ring: facets of both circles face each other, so that it falls into wedges.
/// @param hole  radius of the corners of its hole; 0 = a disc
Plate ring(PartShape s, double hole, double outer, int facets) {
    const Ring rim = corners(outer, facets);
    s.boundary = squareLoop(rim);
    if (hole > 0) {
        const Ring inner = corners(hole, facets);
        s.holes.push_back(squareLoop(reversed(inner)));
        addWedges(s, inner, rim, 0, rim.size());
    }
    return makePart(s);
}

/// One layer of rings, whole or in segments.
struct RingLayer {
    PartShape shape;
    double hole = 0, outer = 0; ///< radii of the corners
    int facets = 0;             ///< a multiple of twice the segments
    int number = 0;             ///< from the deck up; every other one is turned by half a segment
    bool last = false;          ///< only the layer below it has joints to show
    int firstMark = 1;
    std::vector<Vec2> screws{}; ///< to be marked on it
};

/// A cross at each screw that lies on the plate; the first is told in words.
void markScrews(const PartShape& shape, const std::vector<Vec2>& screws, Plate& plate) {
    constexpr double arm = 5; // mm
    std::vector<GuideLine> lines;
    for (const Vec2& at : screws) {
        if (!contains(Polygon{shape.boundary.outer, {}}, at, 0)) continue;
        lines.push_back({at - Vec2(arm, 0), at + Vec2(arm, 0), lines.empty() ? "screw" : "", false});
        lines.push_back({at - Vec2(0, arm), at + Vec2(0, arm), {}, false});
    }
    for (GuideLine& line : panelGuides(shape, plate, std::move(lines)))
        plate.guides.push_back(std::move(line));
}

void addLayer(const RingLayer& layer, int segments, std::vector<Plate>& out) {
    if (segments < 2) {
        PartShape whole = layer.shape;
        whole.boundary = squareLoop(corners(layer.outer, layer.facets));
        out.push_back(ring(layer.shape, layer.hole, layer.outer, layer.facets));
        markScrews(whole, layer.screws, out.back());
        return;
    }
    const Ring rim = corners(layer.outer, layer.facets), inner = corners(layer.hole, layer.facets);
    const auto each = static_cast<std::size_t>(layer.facets / segments);
    const auto name = [&](int i) {
        return layer.shape.name + " segment " + std::to_string((i + segments) % segments + 1);
    };
    for (int i = 0; i < segments; ++i) {
        PartShape s = layer.shape;
        s.name = name(i);
        const std::size_t first = static_cast<std::size_t>(i) * each + (layer.number % 2 ? each / 2 : 0);
        Ring around;
        for (std::size_t k = 0; k <= each; ++k) around.push_back(rim[(first + k) % rim.size()]);
        if (layer.hole > 0)
            for (std::size_t k = each + 1; k-- > 0;) around.push_back(inner[(first + k) % rim.size()]);
        else
            around.push_back(Vec2::Zero());
        s.boundary = squareLoop(around);
        s.boundary.edges.resize(around.size());
        s.boundary.edges[each] = meeting(name(i + 1), EdgeRole::butts, pi, layer.firstMark + i);
        s.boundary.edges.back() =
            meeting(name(i - 1), EdgeRole::butts, pi, layer.firstMark + (i + segments - 1) % segments);
        addWedges(s, inner, rim, first, first + each);
        const std::size_t middle = (first + each / 2) % rim.size();
        Plate plate = makePart(s);
        plate.guides =
            panelGuides(s, plate, {{inner[middle], rim[middle], "joint of the next layer", layer.last}});
        markScrews(s, layer.screws, plate);
        out.push_back(std::move(plate));
    }
}

std::string sideName(const TurntableFigures& t, int i) {
    return t.name + "/side " + std::to_string((i + t.sides) % t.sides + 1);
}

/// One side of the drum: outside face on a face of the prism, both long edges mitred.
Plate drumSide(const TurntableFigures& t, int i) {
    const double R = t.rings.diameter / 2, step = 2 * pi / t.sides, thick = t.drumSheet.thickness;
    const double middle = i * step, width = R * std::sin(step / 2), apothem = R * std::cos(step / 2);
    const double cut = width - thick * std::tan(step / 2); // half-width of the inside face
    PartShape s = partOf(t, "side " + std::to_string(i + 1), t.drumSheet, 0);
    const Vec3 x = t.frame.axes.col(0), y = t.frame.axes.col(1), axis = t.frame.axes.col(2);
    const Vec3 out = std::cos(middle) * x + std::sin(middle) * y;
    s.at.axes.col(0) = axis.cross(out);
    s.at.axes.col(1) = axis;
    s.at.axes.col(2) = out;
    s.at.origin = t.onAxis(0) + apothem * out;
    const double low = t.drumLow(), high = t.drumHigh();
    s.boundary.outer = {{-width, low}, {width, low}, {width, high}, {-width, high}};
    s.boundary.inner = {{-cut, low}, {cut, low}, {cut, high}, {-cut, high}};
    const double inside = pi - step;
    const PanelEdge lip = meeting(t.name + "/lip disc", EdgeRole::butts, pi / 2, 0);
    s.boundary.edges = {
        t.rings.rises ? lip : PanelEdge{}, meeting(sideName(t, i + 1), EdgeRole::mitre, inside, i + 1),
        t.rings.rises ? PanelEdge{} : lip,
        meeting(sideName(t, i - 1), EdgeRole::mitre, inside, (i + t.sides - 1) % t.sides + 1)};
    return makePart(s);
}

} // namespace

namespace {

constexpr int mostSegments = 24;

std::vector<Plate> ringsIn(const TurntableFigures& t, int segments) {
    const RingSizes& r = t.sizes;
    const double thick = t.ringSheet.thickness, rim = r.outside / 2;
    const int step = 2 * segments, n = (plates::facetsOf(rim) + step - 1) / step * step;
    std::vector<Plate> out;
    int number = 0;
    const auto add = [&](const std::string& name, double upper, double hole) {
        const bool cap = number > r.spacerLayers;
        addLayer({partOf(t, name, t.ringSheet, upper), hole, rim, n, number, cap,
                  t.sides + 1 + number * segments, cap ? screwPlaces(t, segments) : std::vector<Vec2>{}},
                 segments, out);
        ++number;
    };
    add("seat ring", thick, outside(r.seatHole / 2, n));
    for (int i = 0; i < r.spacerLayers; ++i)
        add("spacer ring" + (r.spacerLayers > 1 ? " " + std::to_string(i + 1) : std::string()),
            thick * (i + 2), outside(r.spacerHole / 2, n));
    add("cap ring", r.capTop, t.rings.rises ? outside(r.capHole / 2, n) : r.capHole / 2);
    return out;
}

} // namespace

int ringScrews(const TurntableFigures& t, int segments) {
    constexpr double pitch = 100; // mm between screws at most round a ring (common practice)
    const double middle = (t.sizes.spacerHole + t.sizes.outside) / 2;
    const int least = std::max(6, static_cast<int>(std::ceil(pi * middle / pitch)));
    if (segments < 2) return least;
    const int joints = 2 * segments; // of all layers: half of them turned by half a segment
    return joints * std::max(2, (least + joints - 1) / joints);
}

std::vector<Vec2> screwPlaces(const TurntableFigures& t, int segments) {
    const int count = ringScrews(t, segments);
    const double radius = (t.sizes.spacerHole + t.sizes.outside) / 4;
    std::vector<Vec2> out;
    for (int i = 0; i < count; ++i) { // the first beside the joint that may be at 0
        const double turn = 2 * pi * (i + 0.5) / count;
        out.emplace_back(radius * std::cos(turn), radius * std::sin(turn));
    }
    return out;
}

void cutRings(TurntableFigures& t) {
    t.segments.reset();
    for (int k = 1; k <= mostSegments && !t.segments; ++k) {
        t.ringParts = ringsIn(t, k);
        if (std::all_of(t.ringParts.begin(), t.ringParts.end(),
                        [&](const Plate& p) { return plates::fitsSheet(p.boundary.outer, t.ringRoom); }))
            t.segments = k;
    }
}

double jointLap(const RingSizes& sizes, int segments) {
    return pi * (sizes.spacerHole + sizes.outside) / 4 / segments;
}

double TurntableFigures::inside() const {
    if (!(rings.wall > 0)) return 0;
    const double apothem = rings.diameter / 2 * (sides > 0 ? std::cos(pi / sides) : 1);
    return std::max(0.0, apothem - rings.wall);
}

std::vector<std::pair<Plate, PartRole::Kind>> drumPlates(const TurntableFigures& t) {
    using Kind = PartRole::Kind;
    std::vector<std::pair<Plate, Kind>> out;
    if (t.sides == 0) return out;
    for (int i = 0; i < t.sides; ++i) out.emplace_back(drumSide(t, i), Kind::drum);
    const double step = 2 * pi / t.sides, thick = t.drumSheet.thickness;
    const double apothem = t.inside();
    const double lip = t.sizes.lipDiameter / 2;
    const int n = plates::facetsOf(lip);
    out.emplace_back(
        ring(partOf(t, "lip disc", t.drumSheet, t.sizes.lipTop), t.rings.rises ? apothem : 0, lip, n),
        Kind::lip);
    // Within the sides: at the bottom, or on top of a drum that rises.
    PartShape floor = partOf(t, t.rings.rises ? "top" : "floor", t.drumSheet,
                             t.rings.rises ? t.drumHigh() : t.drumLow() + thick);
    if (apothem > 0) {
        floor.boundary = squareLoop(corners(outside(apothem, t.sides), t.sides, -step / 2));
        for (int i = 0; i < t.sides; ++i)
            floor.boundary.edges.push_back(meeting(sideName(t, i), EdgeRole::rests, pi / 2, 0));
        out.emplace_back(makePart(floor), Kind::drumEnd);
    }
    return out;
}

} // namespace slab::mechanisms
