// Getting out, gaps that catch, and air.
#include "core/geometry/polygon.h"
#include "core/plates/mass.h"
#include "core/trial/outline.h"
#include "core/trial/path_out.h"
#include "core/trial/words.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab::trial {

namespace {

constexpr double allowance = 50;         ///< mm a side, as reference figures of exits take it
constexpr double escapeHigh = 24 * 25.4; ///< mm: least height of an escape window, IRC R310, from memory
constexpr double grownUp = 918;          ///< mm: sitting height that it is meant for; M50 of ANSUR II
constexpr double lidFactor = 3;          ///< times its weight that a lid is held with (common practice)
constexpr double lapShare = 0.5;         ///< of a lap strip that stands before the opening

/// The hole of an opening in its plate: what is clear through its whole thickness.
struct ClearHole {
    std::vector<Ring> rings; ///< outer and inner outline, the plate's flat coordinates
};
ClearHole holeOf(const Plate& plate, const FlatOpening& opening) {
    ClearHole out;
    for (const PanelLoop& hole : plate.holes)
        if (hole.opening == opening.name) out.rings = {hole.outer, hole.inner};
    if (out.rings.empty()) out.rings = {opening.outline};
    std::erase_if(out.rings, [](const Ring& r) { return r.size() < 3; });
    for (Ring& ring : out.rings)
        if (signedArea(ring) < 0) std::reverse(ring.begin(), ring.end());
    return out;
}

constexpr double cut = 0.25; ///< of a side that a corner of a person's outline takes, from memory
/// Corners of that outline, a rectangle without its corners, and its middles, as shares of its size.
constexpr std::array<std::pair<double, double>, 4> outline{{{0.5, cut}, {cut, 0.5}, {0.5, 0}, {0, 0.5}}};

/// Is it within all rings?
bool holds(const ClearHole& hole, const Vec2& middle, const Vec2& u, const Vec2& v, double w, double h) {
    for (const auto& [x, y] : outline)
        for (const double right : {x, -x})
            for (const double up : {y, -y})
                for (const Ring& ring : hole.rings)
                    if (!contains(ring, middle + right * w * u + up * h * v, 1e-9)) return false;
    return true;
}

bool convex(const Ring& ring) {
    const std::size_t n = ring.size();
    for (std::size_t i = 0; i < n; ++i)
        if (cross2(ring[(i + 1) % n] - ring[i], ring[(i + 2) % n] - ring[(i + 1) % n]) < -1e-9) return false;
    return n > 2;
}

/// The greatest s up to `most` with all corners fixed + s·along within convex rings, which run
/// counter-clockwise: below 0 where none is.
double greatestWithin(const ClearHole& hole, const std::vector<std::pair<Vec2, Vec2>>& corners, double most) {
    double s = most;
    for (const Ring& ring : hole.rings)
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2 side = ring[(i + 1) % ring.size()] - ring[i];
            if (side.squaredNorm() < 1e-18) continue;
            const Vec2 out = Vec2(side.y(), -side.x()).normalized();
            for (const auto& [fixed, along] : corners) {
                const double room = out.dot(ring[i] - fixed), rises = out.dot(along);
                if (rises > 1e-9 * along.norm()) // else it goes along the side
                    s = std::min(s, room / rises);
                else if (room < -1e-9)
                    return -1;
            }
        }
    return s;
}

/// The greatest number that keeps a test true, from 0 up, within 1e-10 of `most`.
template <class F>
double greatest(const F& test, double most) {
    double low = 0, high = most;
    if (test(most)) return most;
    for (int i = 0; i < 34; ++i) (test((low + high) / 2) ? low : high) = (low + high) / 2;
    return low;
}

/// The greatest s with the outline of size fixed + s·grown, both across and up, in the hole; 0 if none.
double greatestSize(const ClearHole& hole, const Vec2& middle, const Vec2& u, const Vec2& v,
                    const Vec2& fixed, const Vec2& grown, double most) {
    if (!std::all_of(hole.rings.begin(), hole.rings.end(), convex))
        return greatest(
            [&](double s) {
                const Vec2 size = fixed + s * grown;
                return holds(hole, middle, u, v, size.x(), size.y());
            },
            most);
    std::vector<std::pair<Vec2, Vec2>> corners;
    for (const auto& [x, y] : outline)
        for (const double right : {x, -x})
            for (const double up : {y, -y})
                corners.emplace_back(middle + right * fixed.x() * u + up * fixed.y() * v,
                                     right * grown.x() * u + up * grown.y() * v);
    return std::max(0.0, greatestWithin(hole, corners, most));
}

/// Clear width (across `u`) and height (along `v`) about the middle: of the wanted proportions first, then
/// each as far as it goes with the other at what is wanted, or at what there is.
Vec2 clearSize(const ClearHole& hole, const Vec2& middle, const Vec2& u, const Vec2& v, const Vec2& wanted) {
    const double share = greatestSize(hole, middle, u, v, Vec2::Zero(), wanted, 20);
    Vec2 size = std::min(share, 1.0) * wanted;
    size.x() = std::max(size.x(), greatestSize(hole, middle, u, v, {0, size.y()}, Vec2::UnitX(), 1e4));
    size.y() = std::max(size.y(), greatestSize(hole, middle, u, v, {size.x(), 0}, Vec2::UnitY(), 1e4));
    return size;
}

/// Diameter of a round hole that holds the wanted outline and a lap about it, mm; 0 if the hole is not round.
double acrossFor(const Ring& outline, const Vec2& middle, const Vec2& u, const Vec2& v, const Vec2& wanted,
                 double lap) {
    double low = 1e18, high = 0;
    for (const Vec2& p : outline) {
        low = std::min(low, (p - middle).norm());
        high = std::max(high, (p - middle).norm());
    }
    if (outline.size() < 12 || high - low > 1e-3 * high) return 0;
    const ClearHole hole{{outline}};
    const Vec2 whole = wanted + Vec2(2 * lap, 2 * lap);
    const double most = greatestSize(hole, middle, u, v, Vec2::Zero(), whole, 20);
    return most > 0 ? 2 * high / most : 0;
}

double lidMass(const Stuff& stuff, const std::string& plate, const std::string& opening) {
    double mass = 0;
    for (const Plate& p : stuff.plates.plates)
        if (p.name.rfind(plate + "/" + opening + " lid", 0) == 0) mass += massOf(p, stuff.stock);
    return mass;
}

double lapOf(const Stuff& stuff, const std::string& plate, const std::string& opening) {
    for (const Plate& p : stuff.plates.plates)
        if (p.name.rfind(plate + "/" + opening + " lap", 0) == 0 && !p.boundary.outer.empty()) {
            const Vec2 size = bounds(p.boundary.outer).size();
            const double wide = std::min(size.x(), size.y());
            return wide < 150 ? wide : 30; // a ring in one piece: 30 mm, from memory
        }
    return 0;
}

double least(const ClearHole& hole) {
    double out = 1e18;
    for (const Ring& ring : hole.rings)
        for (std::size_t i = 0; i < ring.size(); ++i) { // least width: over the directions of its sides
            const Vec2 side = ring[(i + 1) % ring.size()] - ring[i];
            if (side.norm() < 1e-9) continue;
            const Vec2 across(-side.normalized().y(), side.normalized().x());
            double low = 1e18, high = -1e18;
            for (const Vec2& p : ring) {
                low = std::min(low, across.dot(p));
                high = std::max(high, across.dot(p));
            }
            out = std::min(out, high - low);
        }
    return out;
}

} // namespace

std::vector<WayOut> waysOutOf(const Stuff& stuff) {
    std::vector<WayOut> out;
    for (const PlateOpening& o : stuff.openings) {
        if (o.purpose != "exit") continue;
        const Plate& plate = stuff.plates.plates[o.plate];
        WayOut way;
        way.opening = o.flat.name;
        way.at = plate.frame.toBody(o.flat.at);
        const Person* seated = nullptr;
        for (const Person& who : stuff.donor.people) {
            const double wide = ride::exitWidth(who.shoulders, who.hips, allowance).value_or(0);
            if (wide > way.wantedWidth) {
                way.wantedWidth = wide;
                way.who = who.name;
                seated = &who;
            }
        }
        way.wantedHeight = escapeHigh * (seated ? std::min(1.0, seated->sittingHeight / grownUp) : 1.0);
        Vec2 up = (plate.frame.axes.transpose() * Vec3::UnitZ()).head<2>();
        up = up.norm() > 0.3
                 ? Vec2(up.normalized()) // a level one: forward is its height
                 : Vec2((plate.frame.axes.transpose() * stuff.donor.chassis.forward).head<2>().normalized());
        const ClearHole hole = holeOf(plate, o.flat);
        const double wanted = way.wantedWidth > 0 ? way.wantedWidth : escapeHigh;
        Vec2 size = clearSize(hole, o.flat.at, Vec2(up.y(), -up.x()), up, {wanted, way.wantedHeight});
        const double lap = lapShare * lapOf(stuff, plate.name, o.flat.name);
        size -= Vec2(2 * lap, 2 * lap);
        way.width = std::max(size.x(), 0.0);
        way.height = std::max(size.y(), 0.0);
        way.lidMass = lidMass(stuff, plate.name, o.flat.name);
        way.catches = lidFactor * way.lidMass * ride::gravity / 1000;
        way.frees = way.catches <= latchPush;
        if (seated) {
            PathOut path = pathOut(stuff, seated->seat, o);
            way.path = std::move(path.points);
            way.inTheWay = std::move(path.inTheWay);
            const bool fits =
                std::min(way.width - way.wantedWidth, way.height - way.wantedHeight) >= -exitSlack;
            if (!fits)
                way.wantedAcross = acrossFor(o.flat.outline, o.flat.at, Vec2(up.y(), -up.x()), up,
                                             {way.wantedWidth, way.wantedHeight}, lap);
            way.outcome = !fits ? Outcome::fails : way.inTheWay.empty() ? Outcome::passes : Outcome::tight;
        }
        out.push_back(std::move(way));
    }
    return out;
}

std::vector<Gap> gapsOf(const Stuff& stuff) {
    std::vector<Gap> out = stuff.closing;
    for (const PlateOpening& o : stuff.openings) {
        if (o.purpose == "exit") continue;
        const Plate& plate = stuff.plates.plates[o.plate];
        const double size = least(holeOf(plate, o.flat));
        if (size > 1e9) continue;
        const auto hazards = ride::gapHazards(size, false);
        if (!hazards) continue;
        const auto told = [&](const Gap& g) { return g.what == "opening " + o.flat.name; };
        if (std::any_of(out.begin(), out.end(), told)) continue;
        for (const ride::GapRule& rule : *hazards)
            out.push_back({"opening " + o.flat.name, size, false,
                           std::string(rule.what) + " (" + std::string(rule.section) + ")",
                           plate.frame.toBody(o.flat.at)});
    }
    return out;
}

Air airOf(const Stuff& stuff) {
    double shoulder = 800;
    if (!stuff.donor.people.empty()) {
        const Person& who = stuff.donor.people.front();
        shoulder = who.seat.z() + 0.6 * who.sittingHeight; // about shoulder height sitting, from memory
    }
    Air out;
    const auto add = [&](double size, double z) { (z < shoulder ? out.low : out.high) += size; };
    for (const PlateOpening& o : stuff.openings) {
        const Plate& plate = stuff.plates.plates[o.plate];
        if (lidMass(stuff, plate.name, o.flat.name) > 0) continue;
        double size = 1e18;
        for (const Ring& ring : holeOf(plate, o.flat).rings)
            size = std::min(size, std::abs(signedArea(ring)));
        if (size < 1e17) add(size, plate.frame.toBody(o.flat.at).z());
    }
    for (std::size_t i = 0; i < stuff.bare.size(); ++i) add(stuff.bare[i], stuff.bareAt[i].z());
    return out;
}

} // namespace slab::trial
