#include "core/donor/people.h"
#include "core/donor/figure.h"
#include "core/ride/people.h"
#include <algorithm>
#include <numbers>
#include <set>

namespace slab {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr Limits reclines{-15 * degree, 75 * degree}, leansOver{0, 60 * degree};
constexpr Limits soles{0, 150, Kind::length}, helmets{0, 100, Kind::length};

/// Eyes ahead of the back, and of the part of the body above the hips its share of the mass and the height of
/// its centre over them as a share of what the shoulders stand higher (Winter's segment tables, from memory).
constexpr double eyesAhead = 0.2, upperMass = 0.678, upperCentre = 0.626;

class People {
public:
    People(const Project& project, const Scope& scope, const Seat& seat, double clearance, DonorSet& set)
        : m_project(project), m_seat(seat), m_clearance(clearance), m_set(set),
          m_reading(scope, set.findings) {}

    void addRider() {
        const Rider& rider = m_project.rider;
        const Whose whose{"The rider", "/rider"};
        const auto sizes = sizesOf(rider, whose, m_reading);
        if (!sizes) return;
        Seat seat = m_seat;
        seat.reference.x() += read(rider.shift_x, Kind::length, "/rider/shift_x", "Rider shift x", 0);
        seat.reference.z() += read(rider.shift_z, Kind::length, "/rider/shift_z", "Rider shift z", 0);
        const Posture posture = postureOf(rider, whose);
        double shortOf = 0;
        const std::vector<FitSolid> body = add("rider", rider, whose, *sizes, seat, posture, shortOf);
        UnitStyle units;
        units.unit = m_reading.scope().unit;
        if (shortOf > 1)
            m_reading.report(Severity::look, "rider-reach",
                             "The rider's hand ends " + printFine(shortOf, units) + " short of the controls.",
                             {"solid:rider/right hand"},
                             "Move the rider forward, or choose another percentile.");
        Leans leans;
        leans.forward = heldWithin(rider.lean_forward, "lean_forward", leansOver, whose, m_reading);
        leans.back = heldWithin(rider.lean_back, "lean_back", leansOver, whose, m_reading);
        leans.aside = heldWithin(rider.lean_aside, "lean_aside", leansOver, whose, m_reading);
        for (DonorPose& pose : riderPoses(sizes->figures, seat, posture, leans, body))
            m_set.poses.push_back(std::move(pose));
    }

    void addPassengers() {
        std::set<std::string> names = {"", "rider", "donor"};
        for (std::size_t i = 0; i < m_project.passengers.size(); ++i) {
            const Passenger& p = m_project.passengers[i];
            const Whose whose{"Passenger " + p.name, "/passengers/" + std::to_string(i)};
            if (!names.insert(p.name).second) {
                m_reading.report(Severity::stop, "passenger-name",
                                 p.name.empty() ? std::string("A passenger has no name.")
                                                : "A passenger cannot be called \"" + p.name +
                                                      "\": somebody or something aboard already is.",
                                 {"document:" + whose.place + "/name"},
                                 "Give every passenger a name of its own.");
                continue;
            }
            const auto sizes = sizesOf(p, whose, m_reading);
            if (!sizes) continue;
            Seat seat = m_seat;
            const auto at = [&](const Text& text, const char* axis) {
                return read(text, Kind::length, whose.place + "/" + axis, whose.words + ", " + axis, 0);
            };
            seat.reference = Vec3(at(p.x, "x"), at(p.y, "y"), at(p.z, "z"));
            Posture posture = postureOf(p, whose);
            posture.lap = true; // the controls are the rider's
            double shortOf = 0;
            (void)add(p.name, p, whose, *sizes, seat, posture, shortOf);
        }
    }

    /// Trunk or head of one within another's: on a lap one sits before the other.
    void tellOverlaps() {
        constexpr double soft = 30; // mm that clothes and flesh give way, from memory
        std::vector<const FitSolid*> bulky;
        for (const FitSolid& s : m_set.solids)
            if (s.group == "rider" && (endsWith(s.name, "/torso") || endsWith(s.name, "/head")))
                bulky.push_back(&s);
        std::set<std::string> told;
        for (std::size_t i = 0; i < bulky.size(); ++i)
            for (std::size_t j = i + 1; j < bulky.size(); ++j) {
                const std::string one = ownerOf(*bulky[i]), other = ownerOf(*bulky[j]);
                if (one == other || told.contains(one + "/" + other)) continue;
                const Nearest near = nearest(bulky[i]->shape, bulky[j]->shape);
                if (!near.meets || near.depth <= soft) continue;
                told.insert(one + "/" + other);
                m_reading.report(Severity::look, "people-overlap",
                                 "Two people are in one place: " + one + " and " + other + ".",
                                 {"solid:" + bulky[j]->name, "document:/passengers"},
                                 "Move one of them: x, y and z say where a passenger's seat and back meet.");
            }
    }

private:
    static bool endsWith(const std::string& name, const std::string& end) {
        return name.size() >= end.size() && name.compare(name.size() - end.size(), end.size(), end) == 0;
    }
    static std::string ownerOf(const FitSolid& solid) { return solid.name.substr(0, solid.name.find('/')); }
    double read(const Text& text, Kind kind, const std::string& place, const std::string& what,
                double otherwise) {
        return m_reading.read(text, kind, place, what, otherwise);
    }

    Posture postureOf(const Figure& figure, const Whose& whose) {
        Posture p;
        p.recline = heldWithin(figure.recline, "recline", reclines, whose, m_reading);
        p.shoes = heldWithin(figure.shoes, "shoes", soles, whose, m_reading);
        p.helmet = heldWithin(figure.helmet, "helmet", helmets, whose, m_reading);
        return p;
    }

    double clearanceOf(const Figure& figure, const Whose& whose) {
        const double value = read(figure.clearance, Kind::length, whose.place + "/clearance",
                                  whose.words + "'s clearance", m_clearance);
        if (value >= 0) return value;
        m_reading.report(Severity::look, "clearance-negative",
                         whose.words + "'s clearance is below zero; 0 is used.",
                         {"document:" + whose.place + "/clearance"}, "Type 0 or the clearance wanted.");
        return 0;
    }

    std::vector<FitSolid> add(const std::string& name, const Figure& figure, const Whose& whose,
                              const BodySizes& sizes, const Seat& seat, const Posture& posture,
                              double& shortOf) {
        std::vector<FitSolid> body = riderSolids(sizes.figures, seat, shortOf, posture, name);
        const double clearance = clearanceOf(figure, whose);
        for (FitSolid& s : body) {
            s.note = sizes.source;
            s.clearance = clearance;
            m_set.solids.push_back(s);
        }
        m_set.people.push_back(personOf(name, sizes, seat, posture));
        const std::string head = name + "/head";
        for (const FitSolid& s : body)
            if (s.name == head) m_set.people.back().top = bounds(s.shape).max.z();
        return body;
    }

    /// Centre of a seated person: a share of sitting height above the seat, so far ahead of the back (Snyder
    /// et al. 1977; adults 0.26, the tables' end). Recline carries the upper body's share of it back.
    static Person personOf(std::string name, const BodySizes& sizes, const Seat& seat,
                           const Posture& posture) {
        const RiderFigures& f = sizes.figures;
        Person who;
        who.name = std::move(name);
        who.mass = f.mass;
        who.seat = seat.reference;
        double ahead = 0.26 * f.sittingHeight, above = 0.26 * f.sittingHeight;
        if (sizes.table.child)
            if (const auto c = ride::seatedCentre(f.sittingHeight, std::max(sizes.table.age, 4.0))) {
                ahead = c->forward;
                above = c->above;
            }
        const Vec3 hip = seat.reference + Vec3(0, 0, 0.1 * f.sittingHeight);
        const Vec3 upper =
            hip + Vec3(f.chestDepth / 2, 0, upperCentre * (f.shoulderHeight - 0.1 * f.sittingHeight));
        who.centre =
            seat.reference + Vec3(ahead, 0, above) + upperMass * (leaned(f, seat, posture, upper) - upper);
        who.eye =
            leaned(f, seat, posture, seat.reference + Vec3(eyesAhead * f.sittingHeight, 0, f.eyeHeight));
        who.shoulders = f.shoulderBreadth;
        who.hips = f.hipBreadth;
        who.sittingHeight = f.sittingHeight;
        who.stature = f.stature;
        return who;
    }

    const Project& m_project;
    const Seat& m_seat;
    double m_clearance;
    DonorSet& m_set;
    Reading m_reading;
};

} // namespace

void seatPeople(const Project& project, const Scope& scope, const Seat& seat, double clearance,
                DonorSet& set) {
    People people(project, scope, seat, clearance, set);
    people.addRider();
    people.addPassengers();
    people.tellOverlaps();
}

} // namespace slab
