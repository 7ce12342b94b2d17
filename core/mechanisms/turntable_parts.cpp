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

/// A round ring: facets of both circles face each other, so that it falls into wedges.
/// @param hole  radius of the corners of its hole; 0 = a disc
Plate ring(PartShape s, double hole, double outer, int facets) {
    const Ring rim = corners(outer, facets);
    s.boundary = squareLoop(rim);
    if (hole > 0) {
        const Ring inner = corners(hole, facets);
        s.holes.push_back(squareLoop(reversed(inner)));
        for (std::size_t i = 0; i < rim.size(); ++i) {
            const std::size_t j = (i + 1) % rim.size();
            s.pieces.push_back({inner[i], rim[i], rim[j], inner[j]});
        }
    }
    return makePart(s);
}

PanelEdge meeting(const std::string& neighbour, EdgeRole role, double dihedral, int mark) {
    PanelEdge e;
    e.neighbour = neighbour;
    e.role = role;
    e.dihedral = dihedral;
    e.mark = mark;
    return e;
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

std::vector<Plate> ringPlates(const TurntableFigures& t) {
    const RingSizes& r = t.sizes;
    const double thick = t.ringSheet.thickness, rim = r.outside / 2;
    const int n = plates::facetsOf(rim);
    std::vector<Plate> out;
    out.push_back(ring(partOf(t, "seat ring", t.ringSheet, thick), outside(r.seatHole / 2, n), rim, n));
    for (int i = 0; i < r.spacerLayers; ++i) {
        const std::string number = r.spacerLayers > 1 ? " " + std::to_string(i + 1) : "";
        out.push_back(ring(partOf(t, "spacer ring" + number, t.ringSheet, thick * (i + 2)),
                           outside(r.spacerHole / 2, n), rim, n));
    }
    const double cap = t.rings.rises ? outside(r.capHole / 2, n) : r.capHole / 2;
    out.push_back(ring(partOf(t, "cap ring", t.ringSheet, r.capTop), cap, rim, n));
    return out;
}

std::vector<Plate> drumPlates(const TurntableFigures& t) {
    std::vector<Plate> out;
    if (t.sides == 0) return out;
    for (int i = 0; i < t.sides; ++i) out.push_back(drumSide(t, i));
    const double step = 2 * pi / t.sides, thick = t.drumSheet.thickness;
    const double apothem = t.rings.diameter / 2 * std::cos(step / 2) - thick;
    const double lip = t.sizes.lipDiameter / 2;
    const int n = plates::facetsOf(lip);
    out.push_back(
        ring(partOf(t, "lip disc", t.drumSheet, t.sizes.lipTop), t.rings.rises ? apothem : 0, lip, n));
    // Within the sides: at the bottom, or on top of a drum that rises.
    PartShape floor = partOf(t, t.rings.rises ? "top" : "floor", t.drumSheet,
                             t.rings.rises ? t.drumHigh() : t.drumLow() + thick);
    if (apothem > 0) {
        floor.boundary = squareLoop(corners(outside(apothem, t.sides), t.sides, -step / 2));
        for (int i = 0; i < t.sides; ++i)
            floor.boundary.edges.push_back(meeting(sideName(t, i), EdgeRole::rests, pi / 2, 0));
        out.push_back(makePart(floor));
    }
    return out;
}

} // namespace slab::mechanisms
