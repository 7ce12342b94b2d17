#include "core/frames/cleats.h"
#include "core/geometry/convex_hull.h"
#include "core/plates/cell.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

constexpr double touch = 1e-4; ///< mm: what comes no deeper into a stick only touches it

/// Stretch along the corner line of a joint, mm from where its skin edge begins.
struct Stretch {
    double from = 0, to = 0;
};

/// The inside corner of a joint with the section that is laid in it.
struct Seat {
    const Plate* a = nullptr;
    const Plate* b = nullptr;
    Vec3 corner = Vec3::Zero(), along = Vec3::UnitX(), x = Vec3::UnitY(), y = Vec3::UnitZ();
    double length = 0, dihedral = 0;
    CleatSection section;

    [[nodiscard]] Vec3 at(const Vec2& p, double s) const {
        return corner + along * s + x * p.x() + y * p.y();
    }
    [[nodiscard]] ConvexSolid stick(const Stretch& s) const {
        ConvexSolid solid;
        for (const double end : {s.from, s.to})
            for (const Vec2& p : section.outline) solid.points.push_back(at(p, end));
        return solid;
    }
};

const Plate* plateNamed(const PlateSet& set, const std::string& name) {
    const auto found =
        std::find_if(set.plates.begin(), set.plates.end(), [&](const Plate& p) { return p.name == name; });
    return found == set.plates.end() ? nullptr : &*found;
}

bool seatOf(const JointInfo& joint, const PlateSet& set, const CleatChoice& rule, Seat& seat) {
    seat.a = plateNamed(set, joint.a);
    seat.b = plateNamed(set, joint.b);
    if (!seat.a || !seat.b || joint.kind == JointKind::open) return false;
    auto section = cleatSection(rule.width, rule.depth, joint.dihedral);
    if (!section) return false;
    seat.section = std::move(*section);
    const Vec3 na = seat.a->frame.axes.col(2), nb = seat.b->frame.axes.col(2);
    seat.dihedral = joint.dihedral;
    seat.length = (joint.to - joint.from).norm();
    seat.along = (joint.to - joint.from) / seat.length;
    seat.x = -(nb - na * na.dot(nb)).normalized();
    seat.y = -na;
    // Depth t_a under the first plate's outside face and t_b under the second's.
    const double deep = seat.a->thickness;
    const double in = (seat.b->thickness + deep * nb.dot(seat.y)) / -nb.dot(seat.x);
    seat.corner = joint.from + seat.x * in + seat.y * deep;
    return true;
}

/// Where a convex obstacle stands in the way of the section pushed along the whole range.
void block(const Seat& seat, const Stretch& range, const ConvexSolid& obstacle, std::vector<Stretch>& taken) {
    using namespace plates;
    const Box3 box = bounds(seat.stick(range)), other = bounds(obstacle);
    if (!boxesMeet(box, other, -touch)) return;
    PlaneTable planes(seat.corner, (box.max - box.min).norm());
    Cell cell = boxCell(planes, box.min, box.max);
    const Ring& ring = seat.section.outline;
    for (std::size_t i = 0; i < ring.size() && !cell.empty(); ++i) {
        const Vec2 side = (ring[(i + 1) % ring.size()] - ring[i]).normalized();
        const Vec3 out = seat.x * side.y() - seat.y * side.x();
        cell = clipped(planes, cell, planes.add({out, out.dot(seat.at(ring[i], 0)) - touch}));
    }
    for (const PolyFace& face : convexHull3(obstacle.points).faces)
        if (!cell.empty()) cell = clipped(planes, cell, planes.add(face.plane));
    if (cell.empty() || volume(cell) < 1e-6) return;
    Stretch s{1e300, -1e300};
    for (const Vec3& v : cell.vertices) {
        s.from = std::min(s.from, seat.along.dot(v - seat.corner));
        s.to = std::max(s.to, seat.along.dot(v - seat.corner));
    }
    taken.push_back(s);
}

/// Where the inside face of one plate does not lie under the stick: beyond its ends, at openings.
void blockUncovered(const Seat& seat, const Stretch& range, bool second, std::vector<Stretch>& taken) {
    constexpr double inset = 0.2, least = 0.5; // mm and mm²: rounding at the borders is no opening
    const Plate& plate = second ? *seat.b : *seat.a;
    const double width = second ? seat.section.onB : seat.section.onA;
    if (width <= 2 * inset) return;
    const Vec2 way = second ? Vec2(std::cos(seat.dihedral), std::sin(seat.dihedral)) : Vec2(1, 0);
    Ring strip;
    for (const auto& [s, r] : {std::pair(range.from, inset), std::pair(range.to, inset),
                               std::pair(range.to, width - inset), std::pair(range.from, width - inset)})
        strip.push_back(plate.frame.toPlane(seat.at(way * r, s)));
    if (signedArea(strip) < 0) strip = reversed(strip);
    Polygon face{plate.boundary.inner, {}};
    for (const PanelLoop& hole : plate.holes)
        if (hole.inner.size() >= 3) face.holes.push_back(hole.inner);
    for (const Polygon& bare : subtract({{strip, {}}}, {face})) {
        if (area(bare) < least) continue;
        Stretch s{1e300, -1e300};
        for (const Vec2& p : bare.outer) {
            const double where =
                seat.along.dot(plate.frame.toBody(Vec3(p.x(), p.y(), -plate.thickness)) - seat.corner);
            s.from = std::min(s.from, where);
            s.to = std::max(s.to, where);
        }
        taken.push_back(s);
    }
}

std::vector<Stretch> freeIn(const Stretch& range, std::vector<Stretch> taken) {
    std::sort(taken.begin(), taken.end(), [](const Stretch& l, const Stretch& r) { return l.from < r.from; });
    std::vector<Stretch> free;
    double from = range.from;
    for (const Stretch& t : taken) {
        if (t.from > from) free.push_back({from, t.from});
        from = std::max(from, t.to);
    }
    if (range.to > from) free.push_back({from, range.to});
    return free;
}

class CleatMaker {
public:
    CleatMaker(const PlateSet& plates, const std::vector<FitSolid>& solids, const UnitStyle& units)
        : m_plates(plates), m_solids(solids), m_units(units) {}

    /// @return pieces made on this joint
    int lay(const CleatChoice& rule, const JointInfo& joint, const Seat& seat) {
        const double more = 3 * (seat.a->thickness + seat.b->thickness); // behind a valley faces run on
        const Stretch range{-more, seat.length + more};
        std::vector<Stretch> taken;
        blockUncovered(seat, range, false, taken);
        blockUncovered(seat, range, true, taken);
        for (const Plate& plate : m_plates.plates)
            for (const ConvexSolid& cell : plate.cells) block(seat, range, cell, taken);
        for (const CleatPiece& piece : m_set.pieces) block(seat, range, piece.shape, taken);
        int made = 0;
        for (const Stretch& s : freeIn(range, std::move(taken))) {
            const Stretch left{s.from + rule.endGap, s.to - rule.endGap};
            if (left.to - left.from < rule.width) continue;
            made += rule.block ? layBlocks(rule, joint, seat, left) : layOne(rule, joint, seat, left, 0);
        }
        return made;
    }
    void tell(Severity severity, const std::string& code, const CleatChoice& rule, const std::string& message,
              const std::string& remedy) {
        m_set.findings.push_back({severity,
                                  code,
                                  "Cleat rule " + rule.name + ": " + message + ".",
                                  {"cleat:" + rule.name, "document:/cleats/" + std::to_string(rule.index)},
                                  remedy,
                                  {}});
    }
    CleatSet finish() {
        checkClear();
        std::map<std::pair<double, double>, StickLine> sticks;
        for (const CleatLine& line : m_set.lines) {
            StickLine& stick = sticks[{line.width, line.depth}];
            stick.width = line.width;
            stick.depth = line.depth;
            stick.pieces += line.count;
            stick.length += line.count * line.length;
            stick.longest = std::max(stick.longest, line.length);
        }
        for (auto& [size, stick] : sticks) m_set.sticks.push_back(stick);
        return std::move(m_set);
    }

private:
    int layOne(const CleatChoice& rule, const JointInfo& joint, const Seat& seat, const Stretch& s,
               double pitch) {
        const double length = s.to - s.from;
        CleatLine wanted{rule.name,  joint.a,    joint.b,       joint.mark,          length, 0,
                         rule.width, rule.depth, seat.dihedral, seat.section.planed, pitch};
        const auto alike = [&](const CleatLine& l) {
            return l.rule == wanted.rule && l.a == wanted.a && l.b == wanted.b && l.mark == wanted.mark &&
                   std::abs(l.length - length) < 0.05 && std::abs(l.pitch - pitch) < 0.05;
        };
        auto line = std::find_if(m_set.lines.begin(), m_set.lines.end(), alike);
        if (line == m_set.lines.end()) line = m_set.lines.insert(line, wanted);
        ++line->count;
        m_set.pieces.push_back({static_cast<int>(line - m_set.lines.begin()), seat.stick(s)});
        return 1;
    }
    int layBlocks(const CleatChoice& rule, const JointInfo& joint, const Seat& seat, const Stretch& s) {
        const double free = s.to - s.from;
        if (free < rule.length) return 0;
        const double span = free - rule.length;
        const int count = span < rule.width ? 1 : 1 + static_cast<int>(std::ceil(span / rule.spacing - 1e-9));
        const double pitch = count > 1 ? span / (count - 1) : 0;
        for (int i = 0; i < count; ++i) {
            const double from = count > 1 ? s.from + i * pitch : s.from + span / 2;
            layOne(rule, joint, seat, {from, from + rule.length}, pitch);
        }
        return count;
    }
    /// One finding for each line and solid that are too near to each other.
    void checkClear() {
        std::map<std::pair<int, std::size_t>, Nearest> worst;
        for (const CleatPiece& piece : m_set.pieces) {
            const Box3 box = bounds(piece.shape);
            for (std::size_t i = 0; i < m_solids.size(); ++i) {
                if (!plates::boxesMeet(box, bounds(m_solids[i].shape), m_solids[i].clearance)) continue;
                const Nearest n = nearest(piece.shape, m_solids[i].shape);
                if (!n.meets && n.distance >= m_solids[i].clearance - 1e-6) continue;
                const auto [known, fresh] = worst.try_emplace({piece.line, i}, n);
                if (!fresh && (n.meets ? n.depth > known->second.depth : n.distance < known->second.distance))
                    known->second = n;
            }
        }
        for (const auto& [key, n] : worst) {
            const CleatLine& line = m_set.lines[static_cast<std::size_t>(key.first)];
            const FitSolid& solid = m_solids[key.second];
            m_set.findings.push_back(
                {n.meets ? Severity::stop : Severity::look,
                 "cleat-in-the-way",
                 "Cleat " + line.rule + " between " + line.a + " and " + line.b +
                     (n.meets ? " runs into " + solid.name
                              : " comes within " + printFine(n.distance, m_units) + " of " + solid.name +
                                    "; " + printFine(solid.clearance, m_units) + " is wanted") +
                     ".",
                 {"cleat:" + line.rule, "solid:" + solid.name, "edge:" + line.a + "|" + line.b},
                 "Use a smaller bar or blocks there, or leave the joint out of the rule.",
                 {{n.onA.x(), n.onA.y(), n.onA.z()}}});
        }
    }

    const PlateSet& m_plates;
    const std::vector<FitSolid>& m_solids;
    UnitStyle m_units;
    CleatSet m_set;
};

bool names(const CleatChoice& rule, const JointInfo& joint) {
    return (matches(rule.a, joint.a) && matches(rule.b, joint.b)) ||
           (matches(rule.a, joint.b) && matches(rule.b, joint.a));
}

} // namespace

CleatSet makeCleats(const std::vector<CleatChoice>& rules, const PlateSet& plates,
                    const std::vector<FitSolid>& solids, const UnitStyle& units) {
    CleatMaker maker(plates, solids, units);
    std::vector<char> served(plates.joints.size(), 0);
    for (const CleatChoice& rule : rules) {
        int joints = 0, empty = 0;
        for (std::size_t i = 0; i < plates.joints.size(); ++i) {
            const JointInfo& joint = plates.joints[i];
            Seat seat;
            if (!names(rule, joint) || !seatOf(joint, plates, rule, seat)) continue;
            ++joints;
            if (served[i]) continue;
            served[i] = 1;
            if (maker.lay(rule, joint, seat) == 0) ++empty;
        }
        if (joints == 0)
            maker.tell(Severity::look, "cleat-misses", rule, "no joint with an inside corner is named by it",
                       "Correct the names of the two plates.");
        else if (empty > 0)
            maker.tell(Severity::note, "cleat-no-room", rule,
                       "nothing of it finds room on " + std::to_string(empty) +
                           (empty == 1 ? " joint" : " joints"),
                       "Use a smaller bar, a smaller end gap or shorter blocks where that matters.");
    }
    return maker.finish();
}

} // namespace slab
