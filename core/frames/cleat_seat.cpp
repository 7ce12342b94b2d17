#include "core/frames/cleat_seat.h"
#include "core/geometry/convex_hull.h"
#include "core/plates/cell.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::cleats {

namespace {

constexpr double justTouches = 1e-4; ///< mm: what comes no deeper into a section only touches it

const Plate* plateNamed(const PlateSet& set, const std::string& name) {
    const auto found =
        std::find_if(set.plates.begin(), set.plates.end(), [&](const Plate& p) { return p.name == name; });
    return found == set.plates.end() ? nullptr : &*found;
}

} // namespace

Vec2 Seat::wayB() const {
    return {std::cos(dihedral), std::sin(dihedral)};
}

ConvexSolid Seat::stick(const Stretch& s) const {
    ConvexSolid solid;
    for (const double end : {s.from, s.to})
        for (const Vec2& p : section.outline) solid.points.push_back(at(p, end));
    return solid;
}

Ring Seat::glued(const Stretch& s, bool second, double inset) const {
    const Vec2 way = second ? wayB() : Vec2(1, 0);
    const double near = (second ? startB : startA) + inset,
                 far = (second ? section.onB : section.onA) - inset;
    const Plate& plate = second ? *b : *a;
    Ring ring;
    for (const auto& [end, reach] :
         {std::pair(s.from, near), std::pair(s.to, near), std::pair(s.to, far), std::pair(s.from, far)})
        ring.push_back(plate.frame.toPlane(at(way * reach, end)));
    return signedArea(ring) < 0 ? reversed(ring) : ring;
}

std::optional<Seat> seatOf(const JointInfo& joint, const PlateSet& set, bool swapped) {
    Seat seat;
    seat.a = plateNamed(set, swapped ? joint.b : joint.a);
    seat.b = plateNamed(set, swapped ? joint.a : joint.b);
    seat.length = (joint.to - joint.from).norm();
    const double s = std::sin(joint.dihedral), least = 1e-6;
    if (!seat.a || !seat.b || joint.kind == JointKind::open || !(seat.length > 0) || joint.dihedral <= 0 ||
        joint.dihedral >= std::numbers::pi || s < least)
        return {};
    const Vec3 na = seat.a->frame.axes.col(2), nb = seat.b->frame.axes.col(2);
    seat.mark = joint.mark;
    seat.dihedral = joint.dihedral;
    seat.along = (joint.to - joint.from) / seat.length;
    seat.x = -(nb - na * na.dot(nb)).normalized();
    seat.y = -na;
    // As deep under either outside face as its plate is thick.
    const double deep = seat.a->thickness;
    seat.corner =
        joint.from + seat.x * ((seat.b->thickness + deep * std::cos(joint.dihedral)) / s) + seat.y * deep;
    // Cut on the bisector of the outside faces, the thicker plate's inside face begins further in.
    if (joint.step > 0)
        (seat.a->thickness > seat.b->thickness ? seat.startA : seat.startB) =
            std::abs(seat.a->thickness - seat.b->thickness) / s;
    return seat;
}

std::optional<Stretch> takenBy(const Swept& swept, Obstacle& obstacle) {
    using namespace plates;
    const Seat& seat = swept.seat;
    const Box3& box = swept.box;
    if (!boxesMeet(box, obstacle.box, -justTouches)) return {};
    if (obstacle.faces.empty())
        for (const PolyFace& face : convexHull3(obstacle.points).faces) obstacle.faces.push_back(face.plane);
    PlaneTable planes(seat.corner, (box.max - box.min).norm());
    Cell cell = boxCell(planes, box.min, box.max);
    for (const Plane& face : obstacle.faces)
        if (!cell.empty()) cell = clipped(planes, cell, planes.add(face));
    const Ring& ring = seat.section.outline;
    for (std::size_t i = 0; i < ring.size() && !cell.empty(); ++i) {
        const Vec2 side = (ring[(i + 1) % ring.size()] - ring[i]).normalized();
        const Vec3 out = seat.x * side.y() - seat.y * side.x();
        cell = clipped(planes, cell, planes.add({out, out.dot(seat.at(ring[i], 0)) - justTouches}));
    }
    if (cell.empty() || volume(cell) < noiseVolume) return {};
    Stretch s{1e300, -1e300};
    for (const Vec3& v : cell.vertices) {
        s.from = std::min(s.from, seat.along.dot(v - seat.corner));
        s.to = std::max(s.to, seat.along.dot(v - seat.corner));
    }
    return s;
}

std::optional<Stretch> nearTo(const Swept& swept, const ConvexSolid& solid, double clearance) {
    constexpr double slice = 0.005, fine = 1e-4; // mm
    const Seat& seat = swept.seat;
    const Stretch& range = swept.range;
    if (!plates::boxesMeet(swept.box, bounds(solid), clearance)) return {};
    const Nearest least = nearest(swept.whole, solid);
    if (!least.meets && least.distance >= clearance) return {};
    // Between a section and a convex solid the distance is a convex function of where the section is: too
    // near on one stretch only, and that holds the nearest point.
    const auto close = [&](double s) {
        const Nearest n = nearest(seat.stick({s - slice, s + slice}), solid);
        return n.meets || n.distance < clearance;
    };
    const double inside = std::clamp(seat.along.dot(least.onA - seat.corner), range.from, range.to);
    const auto edge = [&](double outside) {
        if (close(outside)) return outside;
        for (double in = inside; std::abs(outside - in) > fine;) {
            const double middle = (in + outside) / 2;
            (close(middle) ? in : outside) = middle;
        }
        return outside;
    };
    return Stretch{edge(range.from), edge(range.to)};
}

void addUncovered(const Seat& seat, const Stretch& range, bool second, std::vector<Stretch>& taken) {
    constexpr double inset = 0.2, least = 0.5; // mm and mm²: rounding at the borders is no opening
    const Plate& plate = second ? *seat.b : *seat.a;
    const bool outside = second ? seat.outsideB : seat.outsideA;
    Polygon face{outside ? plate.boundary.outer : plate.boundary.inner, {}};
    if (face.outer.size() < 3) return taken.push_back(range);
    for (const PanelLoop& hole : plate.holes)
        if (const Ring& ring = outside ? hole.outer : hole.inner; ring.size() >= 3)
            face.holes.push_back(ring);
    for (const Polygon& bare : subtract({{seat.glued(range, second, inset), {}}}, {face})) {
        if (area(bare) < least) continue;
        Stretch s{1e300, -1e300};
        for (const Vec2& p : bare.outer) {
            const double where = seat.along.dot(
                plate.frame.toBody(Vec3(p.x(), p.y(), outside ? 0 : -plate.thickness)) - seat.corner);
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
        if (t.from > from) free.push_back({from, std::min(t.from, range.to)});
        from = std::max(from, t.to);
    }
    if (range.to > from) free.push_back({from, range.to});
    return free;
}

} // namespace slab::cleats
