#include "core/frames/cleat_tees.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace slab::cleats {

namespace {

constexpr double shortest = 5;    ///< mm: no piece is laid along a shorter edge
constexpr double rounding = 0.01; ///< mm: a gap typed as glueGap is one
constexpr double steepest = 0.17; ///< a plate within 10° of the host's face leaves no corner

bool isFrame(const Plate& plate) {
    return plate.form.starts_with("frames/");
}

Plane faceOf(const Plate& plate, bool inside) {
    const Vec3 w = plate.frame.axes.col(2);
    const double outer = w.dot(plate.frame.origin);
    return inside ? Plane{-w, plate.thickness - outer} : Plane{w, outer};
}

/// One edge of a face of the plate that stands, and the face of the host.
struct FootEdge {
    Vec3 from, to;
    bool outside = false; ///< an edge of its outside face
};

std::optional<Seat> seatAt(const Tee& tee, const FootEdge& e, bool swapped) {
    const Plane face = faceOf(*tee.host, tee.inside);
    const Vec3 w = tee.standing->frame.axes.col(2), m = e.outside ? w : Vec3(-w), n = face.normal;
    const double from = face.distance(e.from), to = face.distance(e.to), length = (e.to - e.from).norm();
    constexpr double level = 0.05; // mm
    if (length < shortest || std::max(std::abs(from), std::abs(to)) > glueGap + rounding ||
        std::abs(from - to) > level)
        return {};
    const Vec3 along = (e.to - e.from) / length, up = w.cross(along);
    const Vec3 aside = m - n * m.dot(n);
    if (up.dot(n) < steepest || aside.norm() < steepest) return {};
    Seat seat;
    seat.mark = tee.mark;
    seat.along = along;
    seat.length = length;
    const Vec3 x = aside.normalized();
    seat.dihedral = std::atan2(up.dot(n), up.dot(x));
    const double gap = from / up.dot(n);
    seat.corner = e.from - up * gap;
    seat.a = tee.host;
    seat.b = tee.standing;
    seat.x = x;
    seat.y = n;
    seat.startB = std::max(0.0, gap);
    seat.outsideA = !tee.inside;
    seat.outsideB = e.outside;
    if (swapped) {
        std::swap(seat.a, seat.b);
        std::swap(seat.startA, seat.startB);
        std::swap(seat.outsideA, seat.outsideB);
        seat.x = up;
        seat.y = m;
    }
    return seat;
}

} // namespace

std::vector<Tee> teesOf(const PlateSet& set) {
    std::map<std::string, const Plate*> named;
    for (const Plate& plate : set.plates) named.emplace(plate.name, &plate);
    std::vector<Tee> tees;
    for (const Plate& host : set.plates) {
        std::set<std::pair<std::string, bool>> seen;
        for (const Contact& contact : host.contacts) {
            const auto standing = named.find(contact.plate);
            if (contact.flat || standing == named.end()) continue;
            if (seen.insert({contact.plate, contact.inside}).second)
                tees.push_back({&host, standing->second, contact.inside, contact.mark});
        }
        if (isFrame(host) || host.boundary.inner.size() < 3) continue;
        const Box3 box = bounds(host.solid);
        for (const Plate& frame : set.plates)
            if (isFrame(frame) && plates::boxesMeet(box, bounds(frame.solid), glueGap + rounding))
                tees.push_back({&host, &frame, true, 0});
    }
    return tees;
}

std::vector<Seat> seatsOf(const Tee& tee, bool swapped) {
    std::vector<Seat> seats;
    const Plate& plate = *tee.standing;
    for (const bool outside : {true, false}) {
        const Ring& ring = outside ? plate.boundary.outer : plate.boundary.inner;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const auto at = [&](const Vec2& p) {
                return plate.frame.toBody(Vec3(p.x(), p.y(), outside ? 0 : -plate.thickness));
            };
            if (auto seat = seatAt(tee, {at(ring[i]), at(ring[(i + 1) % ring.size()]), outside}, swapped))
                seats.push_back(*seat);
        }
    }
    return seats;
}

} // namespace slab::cleats
