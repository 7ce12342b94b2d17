#include "core/donor/people.h"
#include "core/donor/reading.h"
#include <algorithm>

namespace slab {

namespace {

class People {
public:
    People(const Project& project, const Scope& scope, DonorSet& set)
        : m_project(project), m_scope(scope), m_set(set) {}

    void addRider(Seat seat) {
        const Rider& rider = m_project.rider;
        if (rider.table == "none") return;
        if (rider.table != "adult" && rider.table != "child") {
            report(Severity::stop, "rider-unknown-table", "There is no rider table \"" + rider.table + "\".",
                   {"document:/rider/table"}, "Choose adult, child or none.");
            return;
        }
        const bool child = rider.table == "child";
        double percentile = read(rider.percentile, Kind::number, "/rider/percentile", "Rider percentile", 50);
        percentile = held("percentile", percentile, child ? 5 : 1, child ? 95 : 99);
        RiderFigures figures;
        if (child) {
            const double age =
                held("age", read(rider.age, Kind::number, "/rider/age", "Rider age", 8), 3, 13.99);
            figures = childFigures(rider.sex, percentile, age);
        } else {
            figures = adultFigures(rider.sex, percentile);
        }
        seat.reference.x() += read(rider.shift_x, Kind::length, "/rider/shift_x", "Rider shift x", 0);
        seat.reference.z() += read(rider.shift_z, Kind::length, "/rider/shift_z", "Rider shift z", 0);
        double shortOf = 0;
        std::vector<FitSolid> body = riderSolids(figures, seat, shortOf);
        UnitStyle units;
        units.unit = m_scope.unit;
        if (shortOf > 1)
            report(Severity::look, "rider-reach",
                   "The rider's hand ends " + printFine(shortOf, units) + " short of the controls.",
                   {"solid:rider/right hand"}, "Move the rider forward, or choose another percentile.");
        m_set.people.push_back(personOf("rider", figures, seat.reference, child));
        const std::string source = child ? "Snyder et al. 1977, UM-HSRI-77-17" : "ANSUR II, Natick/TR-15/007";
        for (FitSolid& s : body) {
            s.note = source;
            m_set.solids.push_back(std::move(s));
        }
    }

private:
    void report(Severity severity, const char* code, std::string message, std::vector<std::string> about,
                std::string remedy) {
        m_reading.report(severity, code, std::move(message), std::move(about), std::move(remedy));
    }
    double read(const Text& text, Kind kind, const std::string& place, const std::string& what,
                double otherwise) {
        return m_reading.read(text, kind, place, what, otherwise);
    }

    /// @param seat  where seat and back meet, donor axes
    static Person personOf(std::string name, const RiderFigures& f, const Vec3& seat, bool child) {
        Person who;
        who.name = std::move(name);
        who.mass = f.mass;
        who.seat = seat;
        // Centre of a seated person: a share of sitting height, so far ahead of the back (Snyder et al.
        // 1977).
        const double share = child ? 0.29 : 0.26, ahead = child ? 0.25 : 0.26;
        who.centre = seat + Vec3(ahead * f.sittingHeight, 0, share * f.sittingHeight);
        who.eye = seat + Vec3(0.2 * f.sittingHeight, 0, f.eyeHeight);
        who.shoulders = f.shoulderBreadth;
        who.hips = f.hipBreadth;
        who.top = seat.z() + f.sittingHeight;
        who.sittingHeight = f.sittingHeight;
        who.stature = f.stature;
        return who;
    }

    /// A rider's figure kept within its table.
    double held(const char* field, double value, double low, double high) {
        if (value >= low && value <= high) return value;
        const std::string range =
            std::to_string(static_cast<int>(low)) + " to " + std::to_string(static_cast<int>(high));
        report(Severity::look, "rider-outside-table",
               std::string("The rider's ") + field + " lies outside the table (" + range +
                   "); the nearest is used.",
               {std::string("document:/rider/") + field}, "Choose a value from " + range + ".");
        return std::clamp(value, low, high);
    }

    const Project& m_project;
    const Scope& m_scope;
    DonorSet& m_set;
    Reading m_reading{m_scope, m_set.findings};
};

} // namespace

void seatPeople(const Project& project, const Scope& scope, const Seat& seat, DonorSet& set) {
    People(project, scope, set).addRider(seat);
}

} // namespace slab
