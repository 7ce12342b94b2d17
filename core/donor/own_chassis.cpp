#include "core/donor/own_chassis.h"
#include "core/donor/parts.h"
#include <algorithm>
#include <cmath>

namespace slab {

double soundLock(double value, double otherwise, const std::string& what, std::vector<std::string> about,
                 Reading& reading) {
    if (value > 0 && value <= greatestLock) return value;
    reading.report(Severity::stop, "donor-lock", what + " is not an angle from 0 to 85°.", std::move(about),
                   "Turn the steering to its stop and measure the wheel against straight ahead.");
    return otherwise;
}

namespace {

constexpr double usualLock = 30 * 3.14159265358979323846 / 180; ///< from memory
constexpr double usualHand = 100;                               ///< mm

/// One wheel of the document at a time.
class WheelReader {
public:
    WheelReader(const DonorWheel& own, std::size_t index, Reading& reading)
        : m_own(own), m_place("/donor/wheels/" + std::to_string(index)), m_reading(reading) {}

    /// @param like  the generic wheel of that name, or an empty one
    bool read(const Wheel& like, Wheel& wheel) {
        wheel = like;
        wheel.name = m_own.name;
        wheel.role = roleOf(m_own.role);
        wheel.at = Vec3(length("x", m_own.x, like.at.x()), length("y", m_own.y, like.at.y()), 0);
        wheel.radius = length("diameter", m_own.diameter, 2 * like.radius) / 2;
        wheel.width = length("width", m_own.width, like.width > 0 ? like.width : casterWidth);
        if (m_sound && !(wheel.radius > 0 && wheel.width > 0)) {
            m_reading.report(Severity::stop, "donor-wheel-size",
                             "Wheel " + m_own.name + " has no diameter and width above zero; it is left out.",
                             {"document:" + m_place},
                             "Measure the wheel and type its diameter and width in.");
            return false;
        }
        readTrail(like, wheel);
        readLock(like, wheel);
        return m_sound;
    }

private:
    static WheelRole roleOf(const std::string& word) {
        return word == "drive"     ? WheelRole::drive
               : word == "steered" ? WheelRole::steered
               : word == "caster"  ? WheelRole::caster
                                   : WheelRole::fixed;
    }
    double length(const char* field, const Text& text, double otherwise) {
        return m_reading.read(text, Kind::length, m_place + "/" + field, "Wheel " + m_own.name + ", " + field,
                              otherwise, &m_sound);
    }
    void unused(const char* field, const char* role) {
        m_reading.report(Severity::note, "donor-wheel-unused",
                         "Wheel " + m_own.name + " has a " + field + ", but only a " + role +
                             " wheel has one; it is not used.",
                         {"document:" + m_place + "/" + field},
                         std::string("Take it out, or give the wheel the role ") + role + ".");
    }
    void readTrail(const Wheel& like, Wheel& wheel) {
        wheel.trail = 0;
        if (wheel.role != WheelRole::caster) {
            if (!m_own.trail.empty()) unused("trail", "caster");
            return;
        }
        const double trail = length("trail", m_own.trail, like.trail);
        wheel.trail = std::max(trail, 0.0);
        if (trail < 0)
            m_reading.report(
                Severity::look, "donor-wheel-trail",
                "The trail of wheel " + m_own.name + " is below zero; 0 is used.",
                {"document:" + m_place + "/trail"},
                "Measure from below the pivot to where the wheel touches the ground, without a sign.");
    }
    void readLock(const Wheel& like, Wheel& wheel) {
        wheel.lock = 0;
        if (wheel.role != WheelRole::steered) {
            if (!m_own.lock.empty()) unused("lock", "steered");
            return;
        }
        const double fallback = like.lock > 0 ? like.lock : usualLock;
        const double lock =
            m_reading.read(m_own.lock, Kind::angle, m_place + "/lock", "Wheel " + m_own.name + ", lock",
                           m_own.lock.empty() ? like.lock : fallback, &m_sound);
        wheel.lock = soundLock(lock, fallback, "How far wheel " + m_own.name + " steers to either side",
                               {"document:" + m_place + "/lock"}, m_reading);
    }

    const DonorWheel& m_own;
    std::string m_place;
    Reading& m_reading;
    bool m_sound = true;
};

FitSolid solidOf(const Wheel& wheel, double top) {
    const double r = wheel.radius, half = wheel.width / 2;
    if (wheel.role == WheelRole::caster)
        return casterCircle(wheel.name + " circle", wheel.at, wheel.trail + std::hypot(r, half),
                            std::max(top, 2 * r));
    if (wheel.role == WheelRole::steered)
        return steeredCircle(wheel.name + " circle", wheel.at, 2 * r, wheel.width);
    return wheelSolid(wheel.name, wheel.at.x(), 1, wheel.at.y() - half, wheel.at.y() + half, r);
}

/// In the place of the generic wheel's solid, or behind all others.
void putSolid(const Wheel& wheel, std::vector<FitSolid>& solids) {
    const auto at = std::find_if(solids.begin(), solids.end(), [&](const FitSolid& s) {
        return s.name == wheel.name || s.name == wheel.name + " circle";
    });
    if (at == solids.end())
        solids.push_back(solidOf(wheel, 0));
    else
        *at = solidOf(wheel, bounds(at->shape).max.z());
}

DriveKind driveOf(const std::string& word) {
    return word == "pivot"     ? DriveKind::pivot
           : word == "steered" ? DriveKind::steered
           : word == "pushed"  ? DriveKind::pushed
                               : DriveKind::none;
}

bool has(const Chassis& c, WheelRole role) {
    return std::any_of(c.wheels.begin(), c.wheels.end(), [&](const Wheel& w) { return w.role == role; });
}

/// What the wheels alone say.
DriveKind likelyDrive(const Chassis& c) {
    if (has(c, WheelRole::steered)) return DriveKind::steered;
    if (has(c, WheelRole::drive)) return DriveKind::pivot;
    return has(c, WheelRole::fixed) ? DriveKind::pushed : DriveKind::none;
}

/// Axle, wheelbase and lock from the wheels. @return what is missing, in words; empty = nothing
std::string driveFromWheels(Chassis& c) {
    std::vector<Wheel> straight, steered;
    for (const Wheel& w : c.wheels) {
        if (w.role == WheelRole::steered) steered.push_back(w);
        const bool axle =
            w.role == WheelRole::drive || (w.role == WheelRole::fixed && c.drive != DriveKind::pivot);
        if (axle) straight.push_back(w);
    }
    const auto middle = [](const std::vector<Wheel>& wheels) {
        Vec3 sum = Vec3::Zero();
        for (const Wheel& w : wheels) sum += w.at;
        return Vec3(sum / std::max<double>(static_cast<double>(wheels.size()), 1));
    };
    c.wheelbase = c.lock = 0;
    if (straight.empty())
        return c.drive == DriveKind::pivot ? "no driven wheel" : "no wheel that stays straight";
    c.axle = middle(straight);
    if (c.drive == DriveKind::pivot) {
        const auto [low, high] =
            std::minmax_element(straight.begin(), straight.end(),
                                [](const Wheel& a, const Wheel& b) { return a.at.y() < b.at.y(); });
        return high->at.y() - low->at.y() > 1 ? "" : "no driven wheel on either side";
    }
    if (c.drive != DriveKind::steered) return "";
    if (steered.empty()) return "no steered wheel";
    c.wheelbase = std::abs(middle(steered).x() - c.axle.x());
    c.lock = std::min_element(steered.begin(), steered.end(), [](const Wheel& a, const Wheel& b) {
                 return a.lock < b.lock;
             })->lock;
    return c.wheelbase > 1 ? "" : "its steered wheels on the axle that stays straight";
}

void tellStance(const Chassis& c, Reading& reading) {
    const auto& w = c.wheels;
    double area = 0;
    for (std::size_t i = 0; i < w.size(); ++i)
        for (std::size_t j = i + 1; j < w.size(); ++j)
            for (std::size_t k = j + 1; k < w.size(); ++k)
                area = std::max(area, (w[j].at - w[i].at).cross(w[k].at - w[i].at).norm());
    if (area > 1) return;
    const std::string count = w.empty()       ? "no wheels"
                              : w.size() == 1 ? "one wheel"
                                              : std::to_string(w.size()) + " wheels";
    reading.report(Severity::look, "donor-stance",
                   "The donor has " + count + (w.size() > 2 ? " in one line" : "") +
                       ": how it stands, tips and turns cannot be worked out.",
                   {"document:/donor/wheels"},
                   "Add each wheel with its place and diameter: three at least, not all in one line.");
}

void addService(const ServicePoint& own, std::size_t index, Reading& reading, Chassis& c) {
    const std::string place = "/donor/service_points/" + std::to_string(index);
    const auto old = std::find_if(c.service.begin(), c.service.end(),
                                  [&](const ReachPoint& p) { return p.name == own.name; });
    ReachPoint point = old == c.service.end() ? ReachPoint{own.name} : *old;
    bool sound = true;
    const auto length = [&](const char* field, const Text& text, double otherwise) {
        return reading.read(text, Kind::length, place + "/" + field,
                            "Service point " + own.name + ", " + field, otherwise, &sound);
    };
    point.at = Vec3(length("x", own.x, point.at.x()), length("y", own.y, point.at.y()),
                    length("z", own.z, point.at.z()));
    point.from = Vec3::Zero();
    if (!own.from.empty()) {
        const int axis = own.from.back() - 'x';
        if (axis >= 0 && axis < 3) point.from = Vec3::Unit(axis) * (own.from.front() == '-' ? -1 : 1);
    }
    point.hand = length("hand", own.hand, usualHand);
    if (!(point.hand > 0)) {
        reading.report(Severity::look, "donor-service-hand",
                       "What must reach service point " + own.name +
                           " has no width above zero; a hand's is used.",
                       {"document:" + place + "/hand"},
                       "Leave it empty for a hand, or type the width of a hand and tool.");
        point.hand = usualHand;
    }
    if (!sound) return;
    if (old == c.service.end())
        c.service.push_back(std::move(point));
    else
        *old = std::move(point);
}

} // namespace

void addOwnChassis(const Donor& donor, Reading& reading, GenericDonor& generic) {
    Chassis& c = generic.chassis;
    for (std::size_t i = 0; i < donor.wheels.size(); ++i) {
        const DonorWheel& own = donor.wheels[i];
        const auto old = std::find_if(c.wheels.begin(), c.wheels.end(),
                                      [&](const Wheel& w) { return w.name == own.name; });
        Wheel wheel;
        if (!WheelReader(own, i, reading).read(old == c.wheels.end() ? Wheel{} : *old, wheel)) continue;
        putSolid(wheel, generic.solids);
        if (old == c.wheels.end())
            c.wheels.push_back(std::move(wheel));
        else
            *old = std::move(wheel);
    }
    for (std::size_t i = 0; i < donor.service.size(); ++i) addService(donor.service[i], i, reading, c);
    const bool chassis = !c.wheels.empty() || !donor.wheels.empty() || donor.kind == "own";
    if (!chassis) return;
    if (!donor.drive.empty()) c.drive = driveOf(donor.drive);
    if (c.drive == DriveKind::none) c.drive = likelyDrive(c);
    if (!donor.wheels.empty() || !donor.drive.empty()) {
        const std::string missing = c.drive == DriveKind::none ? "" : driveFromWheels(c);
        if (!missing.empty()) {
            reading.report(Severity::look, "donor-drive",
                           "The donor is " +
                               std::string(c.drive == DriveKind::pivot     ? "driven by a wheel a side"
                                           : c.drive == DriveKind::steered ? "steered"
                                                                           : "pushed") +
                               ", but has " + missing + ": how it turns cannot be worked out.",
                           {"document:/donor/drive", "document:/donor/wheels"},
                           "Give each wheel its role, or choose another drive.");
            c.drive = DriveKind::none;
        }
    }
    tellStance(c, reading);
}

} // namespace slab
