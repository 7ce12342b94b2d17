#include "core/donor/generic.h"
#include "core/donor/own_chassis.h"
#include "core/donor/people.h"
#include "core/donor/placing.h"
#include "core/donor/reading.h"
#include "core/donor/sizes.h"
#include <algorithm>

namespace slab {

namespace {

std::string listedKinds() {
    std::string words;
    for (const std::string& kind : donorKinds()) words += (words.empty() ? "" : ", ") + kind;
    return words;
}

std::string bare(const std::string& name) {
    return name.rfind("donor/", 0) == 0 ? name.substr(6) : name;
}

class Resolver {
public:
    Resolver(const Project& project, const Scope& scope) : m_project(project), m_scope(scope) {}

    DonorSet resolve() {
        placeDonor();
        GenericDonor generic = genericDonor();
        std::vector<FitSolid> parts = generic.solids;
        for (std::size_t i = 0; i < m_project.donor.solids.size(); ++i) addOwn(i, parts);
        for (FitSolid& p : parts) {
            p.name = "donor/" + p.name;
            m_set.solids.push_back(std::move(p));
        }
        const double fallback =
            clearanceOf(m_project.clearance.fallback, "/clearance/default", "The default clearance", 20);
        for (FitSolid& s : m_set.solids) s.clearance = std::max(s.clearance, fallback);
        seatPeople(m_project, m_scope, generic.seat, fallback, m_set);
        leaveOut();
        setClearances(fallback);
        finishPoses();
        m_set.chassis = generic.chassis;
        put(m_set, m_turn, Vec3(m_set.place));
        return std::move(m_set);
    }

private:
    void report(Severity severity, const char* code, std::string message, std::vector<std::string> about,
                std::string remedy) {
        m_reading.report(severity, code, std::move(message), std::move(about), std::move(remedy));
    }
    double read(const Text& text, Kind kind, const std::string& place, const std::string& what,
                double otherwise, bool* sound = nullptr) {
        return m_reading.read(text, kind, place, what, otherwise, sound);
    }

    void placeDonor() {
        const Placement& at = m_project.donor.at;
        m_set.place.x() = read(at.x, Kind::length, "/donor/at/x", "Donor place x", 0);
        m_set.place.y() = read(at.y, Kind::length, "/donor/at/y", "Donor place y", 0);
        m_set.place.z() = read(at.z, Kind::length, "/donor/at/z", "Donor place z", 0);
        const double yaw = read(at.yaw, Kind::angle, "/donor/at/yaw", "Donor yaw", 0);
        const double roll = read(at.roll, Kind::angle, "/donor/at/roll", "Donor roll", 0);
        const double pitch = read(at.pitch, Kind::angle, "/donor/at/pitch", "Donor pitch", 0);
        if (roll != 0 || pitch != 0)
            report(Severity::look, "donor-tilt",
                   "The donor stands on its wheels: its roll and pitch are left out of account.",
                   {std::string("document:/donor/at/") + (roll != 0 ? "roll" : "pitch")},
                   "Set them to 0; to lean the shell over it, turn the body's forms.");
        m_turn = Eigen::AngleAxisd(yaw, Vec3::UnitZ()).toRotationMatrix();
        if (yaw == 0) m_turn.setIdentity();
    }

    GenericDonor genericDonor() {
        std::string kind = m_project.donor.kind;
        const auto kinds = donorKinds();
        if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
            report(Severity::stop, "donor-unknown-kind", "There is no generic donor called \"" + kind + "\".",
                   {"document:/donor/kind"}, "Choose one of " + listedKinds() + ".");
            kind = "none";
        }
        const SizeValues sizes = readSizes(m_project.donor, kind, m_reading);
        const SizeOf size = [&](const char* name) {
            const auto it = sizes.find(name);
            return it == sizes.end() ? 0.0 : it->second;
        };
        GenericDonor donor = makeDonor(kind, size);
        // Changed sizes may turn a solid inside out (a front behind its back): say so and leave that solid
        // out.
        std::erase_if(donor.solids, [&](const FitSolid& s) { return !soundShape(s); });
        addOwnChassis(m_project.donor, m_reading, donor);
        return donor;
    }

    bool soundShape(const FitSolid& s) {
        const Box3 box = bounds(s.shape);
        const Vec3 size = box.size();
        bool sound = size.minCoeff() > 0;
        // Box corners are listed low to high along each axis.
        if (sound && s.shape.kind == ConvexSolid::Kind::hull && s.shape.points.size() == 8 &&
            s.shape.radius == 0)
            sound = (s.shape.points[7] - s.shape.points[0]).minCoeff() > 0;
        if (!sound)
            report(Severity::stop, "donor-solid-empty",
                   "With these sizes donor/" + s.name + " has no room between its sides.",
                   {"solid:donor/" + s.name, "document:/donor/changes"},
                   "Check the changed sizes: fronts lie ahead of backs, tops above undersides.");
        return sound;
    }

    void addOwn(std::size_t index, std::vector<FitSolid>& parts) {
        const DonorSolid& own = m_project.donor.solids[index];
        const std::string name = bare(own.name);
        if (name.empty()) {
            report(Severity::look, "donor-solid-name", "An own donor solid has no name.",
                   {"document:/donor/solids/" + std::to_string(index)}, "Give it a name.");
            return;
        }
        FitSolid solid;
        solid.name = name;
        solid.group = "donor";
        solid.moving = own.moving;
        solid.note = "own size";
        if (!ownShape(own, index, solid.shape)) return;
        const auto old =
            std::find_if(parts.begin(), parts.end(), [&](const FitSolid& s) { return s.name == name; });
        if (old != parts.end()) {
            *old = std::move(solid);
            return;
        }
        parts.push_back(std::move(solid));
    }

    bool ownShape(const DonorSolid& own, std::size_t index, ConvexSolid& shape) {
        const std::string place = "/donor/solids/" + std::to_string(index);
        bool sound = true;
        const auto length = [&](const char* field, const Text& text) {
            return read(text, Kind::length, place + "/" + field, "Donor solid " + own.name + ", " + field, 0,
                        &sound);
        };
        const Vec3 centre(length("x", own.x), length("y", own.y), length("z", own.z));
        const int axis = own.axis == "x" ? 0 : own.axis == "y" ? 1 : 2;
        Vec3 size;
        bool positive = false;
        if (own.shape == "box") {
            size = Vec3(length("size_x", own.size_x), length("size_y", own.size_y),
                        length("size_z", own.size_z));
            positive = size.minCoeff() > 0;
            shape = makeBoxSolid(centre - size / 2, centre + size / 2);
        } else if (own.shape == "cylinder" || own.shape == "capsule") {
            const double diameter = length("diameter", own.diameter), reach = length("length", own.length);
            const Vec3 half = Vec3::Unit(axis) * (reach / 2);
            const bool capsule = own.shape == "capsule";
            positive = diameter > 0 && (capsule ? reach >= 0 : reach > 0);
            shape = capsule ? makeCapsule(centre - half, centre + half, diameter / 2)
                            : makeCylinder(centre - half, centre + half, diameter / 2);
        } else {
            report(Severity::stop, "donor-solid-shape",
                   "Donor solid " + own.name + " has an unknown shape \"" + own.shape + "\".",
                   {"document:" + place + "/shape"}, "Choose box, cylinder or capsule.");
            return false;
        }
        if (sound && !positive)
            report(Severity::stop, "donor-solid-size",
                   "Donor solid " + own.name + " has a size that is not above zero; it is left out.",
                   {"solid:donor/" + bare(own.name), "document:" + place},
                   "Measure it and type its sizes in.");
        return sound && positive;
    }

    [[nodiscard]] FitSolid* find(const std::string& name) {
        const auto it = std::find_if(m_set.solids.begin(), m_set.solids.end(), [&](const FitSolid& s) {
            return s.name == name || s.name == "donor/" + name;
        });
        return it == m_set.solids.end() ? nullptr : &*it;
    }

    void leaveOut() {
        for (const std::string& name : m_project.donor.leave_out) {
            const FitSolid* solid = find(name);
            if (!solid) {
                report(Severity::look, "donor-unknown-solid",
                       "There is no donor solid \"" + name + "\" to leave out.",
                       {"document:/donor/leave_out"}, "Take the name out of the list.");
                continue;
            }
            m_set.solids.erase(m_set.solids.begin() + (solid - m_set.solids.data()));
        }
    }

    double clearanceOf(const Text& text, const std::string& place, const std::string& what,
                       double otherwise) {
        const double value = read(text, Kind::length, place, what, otherwise);
        if (value >= 0) return value;
        report(Severity::look, "clearance-negative", what + " is below zero; 0 is used.",
               {"document:" + place}, "Type 0 or the clearance wanted.");
        return 0;
    }

    /// By name in the document, else the solid's own, else the default; moving parts at least 20 mm (common
    /// practice).
    void setClearances(double fallback) {
        for (std::size_t i = 0; i < m_project.donor.solids.size(); ++i) {
            const DonorSolid& own = m_project.donor.solids[i];
            FitSolid* solid = own.clearance.empty() ? nullptr : find(bare(own.name));
            if (solid)
                solid->clearance =
                    clearanceOf(own.clearance, "/donor/solids/" + std::to_string(i) + "/clearance",
                                "The clearance of " + own.name, fallback);
        }
        for (const NamedText& c : m_project.clearance.solids) {
            const std::string place = "/clearance/solids/" + c.name;
            FitSolid* solid = find(c.name);
            if (solid)
                solid->clearance = clearanceOf(c.value, place, "The clearance of " + c.name, fallback);
            else
                report(Severity::look, "clearance-unknown-solid",
                       "A clearance is given for \"" + c.name + "\", but there is no such solid.",
                       {"document:" + place}, "Take it out, or use the name of a donor or rider solid.");
        }
    }

    /// Poses leave out what is left out at rest, and want the same clearances.
    void finishPoses() {
        for (DonorPose& pose : m_set.poses) {
            std::erase_if(pose.solids, [&](const FitSolid& s) { return find(s.name) == nullptr; });
            for (FitSolid& s : pose.solids) s.clearance = find(s.name)->clearance;
        }
        std::erase_if(m_set.poses, [](const DonorPose& pose) { return pose.solids.empty(); });
    }

    const Project& m_project;
    const Scope& m_scope;
    DonorSet m_set;
    Reading m_reading{m_scope, m_set.findings};
    Mat3 m_turn = Mat3::Identity();
};

} // namespace

DonorSet resolveDonor(const Project& project, const Scope& scope) {
    return Resolver(project, scope).resolve();
}

} // namespace slab
