#include "core/frames/cleat_parts.h"
#include "core/geometry/convex_hull.h"
#include "core/plates/lap_strips.h"
#include "core/plates/lofted.h"
#include <algorithm>
#include <cmath>

namespace slab::cleats {

namespace {

/// u along the corner, w out of the body, on the first plate's inside face.
Frame frameOf(const Seat& seat, double from) {
    Frame frame;
    frame.origin = seat.corner + seat.along * from;
    frame.axes << seat.along, (-seat.y).cross(seat.along), -seat.y;
    return frame;
}

/// Least and greatest x of the section at a height.
std::pair<double, double> spanAt(const Ring& section, double height) {
    std::pair<double, double> span{1e300, -1e300};
    for (const Vec2& p : section)
        if (std::abs(p.y() - height) < 1e-6) {
            span.first = std::min(span.first, p.x());
            span.second = std::max(span.second, p.x());
        }
    return span;
}

/// A strip of a sheet, its outside face on the first plate; the edge against the second is planed.
std::optional<Plate> stripPlate(const CleatChoice& rule, const Seat& seat, const Stretch& s) {
    plates::Loft loft;
    loft.form = seat.a->form;
    loft.stock = rule.stock;
    loft.thickness = rule.depth;
    loft.frame = frameOf(seat, s.from);
    for (const auto& [height, face] : {std::pair(0.0, &loft.outer), std::pair(rule.depth, &loft.inner)}) {
        const auto [near, far] = spanAt(seat.section.outline, height);
        for (const auto& [end, x] :
             {std::pair(s.from, near), std::pair(s.to, near), std::pair(s.to, far), std::pair(s.from, far)})
            face->outer.push_back(loft.frame.toPlane(seat.at({x, height}, end)));
        if (signedArea(face->outer) < 0) face->outer = reversed(face->outer);
    }
    return plates::loftedPlate(loft);
}

Plate timber(const CleatChoice& rule, const Seat& seat, const Stretch& s) {
    Plate plate;
    plate.form = seat.a->form;
    plate.thickness = rule.depth;
    plate.density = rule.density;
    plate.frame = frameOf(seat, s.from);
    plate.cells = {seat.stick(s)};
    plate.solid = convexHull3(plate.cells.front().points);
    plate.volume = volume(plate.solid);
    return plate;
}

/// The strip lies with its face on one plate and with an edge on the other.
void tellRests(Plate& strip, const Seat& seat, int faceMark, int edgeMark) {
    strip.rests = {{seat.a->name, true, !seat.outsideA, faceMark}};
    for (std::size_t i = 0; i < strip.boundary.outer.size(); ++i) {
        const Vec2 middle =
            (strip.boundary.outer[i] + strip.boundary.outer[(i + 1) % strip.boundary.outer.size()]) / 2;
        if (std::abs((strip.frame.toBody(middle) - seat.corner).dot(seat.x)) > 1e-6) continue;
        PanelEdge& edge = strip.boundary.edges[i];
        edge.neighbour = seat.b->name;
        edge.role = EdgeRole::rests;
        edge.dihedral = seat.dihedral;
        edge.mark = edgeMark;
    }
}

} // namespace

PieceWriter::PieceWriter(const PlateSet& plates) : m_mark(plates::highestMark(plates) + 1) {}

void PieceWriter::add(const CleatChoice& rule, const Seat& seat, const Stretch& s, double pitch) {
    std::optional<Plate> strip;
    if (!rule.stock.empty()) strip = stripPlate(rule, seat, s);
    if (!rule.stock.empty() && !strip) return;
    Plate piece = strip ? std::move(*strip) : timber(rule, seat, s);
    piece.name = seat.a->name + "/" + rule.name + (rule.block ? " block" : " cleat");
    if (const int number = ++m_names[piece.name]; number > 1) piece.name += "#" + std::to_string(number);
    piece.rank = seat.a->rank;
    int faceMark = 0, edgeMark = 0; // timber has no panel to write a mark on
    if (strip) {
        faceMark = m_mark++;
        edgeMark = m_mark++;
        tellRests(piece, seat, faceMark, edgeMark);
    }
    mark(*seat.a, piece, seat.glued(s, false), faceMark);
    m_set.marks.back().inside = !seat.outsideA;
    mark(*seat.b, piece, seat.glued(s, true), edgeMark);
    m_set.marks.back().inside = !seat.outsideB;
    m_set.marks.back().flat = !strip;
    CleatLine& line = lineOf(rule, seat, s.length(), pitch);
    ++line.count;
    line.plates.push_back(piece.name);
    m_set.parts.push_back(std::move(piece));
}

void PieceWriter::mark(const Plate& host, const Plate& piece, Ring ring, int number) {
    Contact contact;
    contact.on = host.name;
    contact.plate = piece.name;
    contact.mark = number;
    contact.inside = contact.flat = true;
    contact.rings = {std::move(ring)};
    m_set.marks.push_back(std::move(contact));
}

CleatLine& PieceWriter::lineOf(const CleatChoice& rule, const Seat& seat, double length, double pitch) {
    constexpr double alike = 0.05; // mm
    const auto found = std::find_if(m_set.lines.begin(), m_set.lines.end(), [&](const CleatLine& l) {
        return l.rule == rule.name && l.a == seat.a->name && l.b == seat.b->name && l.mark == seat.mark &&
               std::abs(l.length - length) < alike && std::abs(l.pitch - pitch) < alike;
    });
    if (found != m_set.lines.end()) return *found;
    CleatLine line;
    line.rule = rule.name;
    line.a = seat.a->name;
    line.b = seat.b->name;
    line.mark = seat.mark;
    line.stock = rule.stock;
    line.block = rule.block;
    line.length = length;
    line.width = rule.width;
    line.depth = rule.depth;
    line.angle = seat.dihedral;
    line.section = seat.section;
    line.glueA = seat.section.onA - seat.startA;
    line.glueB = seat.section.onB - seat.startB;
    line.pitch = pitch;
    line.barLength = rule.barLength;
    line.price = rule.price;
    line.density = rule.density;
    return m_set.lines.emplace_back(std::move(line));
}

} // namespace slab::cleats
