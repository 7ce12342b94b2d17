#include "core/geometry/convex.h"
#include "core/plates/mass.h"
#include "core/trial/stuff.h"
#include <algorithm>

namespace slab::trial {

namespace {

/// Plates by the density of their sheet; those without one are named by it, each once.
ride::MassProperties shellOf(const Stuff& stuff, std::vector<std::string>& unweighed) {
    std::vector<ride::MassProperties> parts;
    for (const Plate& plate : stuff.plates.plates) {
        const double mass = massOf(plate, stuff.stock);
        if (mass > 0) {
            if (const auto part = ride::solidOfMass(plate.solid, mass)) parts.push_back(*part);
            continue;
        }
        const std::string of = plate.stock.empty() ? plate.name : plate.stock;
        if (std::find(unweighed.begin(), unweighed.end(), of) == unweighed.end()) unweighed.push_back(of);
    }
    return ride::combined(parts);
}

/// Cylinders and hulls in one material; a single point is a weight.
ride::MassProperties boughtMass(const BoughtPart& part) {
    std::vector<ride::MassProperties> pieces;
    double sum = 0;
    for (const ConvexSolid& piece : part.pieces)
        if (piece.points.size() > 1) {
            const Polyhedron solid = toPolyhedron(piece, 48);
            const double size = volume(solid);
            if (!(size > 0)) continue;
            if (auto one = ride::solidOfMass(solid, size)) pieces.push_back(*one), sum += size;
        }
    const double mass = part.mass.value_or(0);
    if (!(sum > 0)) return ride::pointMass(mass, part.centre).value_or(ride::MassProperties{});
    ride::MassProperties all = ride::combined(pieces);
    all.inertia *= mass / sum;
    all.mass = mass;
    all.centre = part.centre; // told by the part: it may carry weights at its ends
    return all;
}

ride::MassProperties glueOf(const Stuff& stuff) {
    Vec3 moment = Vec3::Zero();
    double length = 0;
    for (const JointInfo& joint : stuff.plates.joints) {
        if (joint.kind == JointKind::open) continue;
        const double l = (joint.to - joint.from).norm();
        moment += l * (joint.from + joint.to) / 2;
        length += l;
    }
    if (!(length > 0)) return {};
    return ride::pointMass(length / 1000 * stuff.ride.adhesive, moment / length)
        .value_or(ride::MassProperties{});
}

void add(Load& load, std::vector<ride::MassProperties>& all, std::string name,
         const ride::MassProperties& part) {
    if (!(part.mass > 0)) return;
    load.parts.push_back({std::move(name), part.mass, part.centre});
    all.push_back(part);
}

/// A seated person about the own centre: a bar as tall as the person sits, as wide as the shoulders.
ride::MassProperties massOfPerson(const Person& who) {
    ride::MassProperties out = ride::pointMass(who.mass, who.centre).value_or(ride::MassProperties{});
    const double h = who.sittingHeight, w = who.shoulders, d = 0.6 * h; // thighs reach ahead, from memory
    out.inertia = who.mass / 12 * Vec3(h * h + w * w, h * h + d * d, d * d + w * w).asDiagonal();
    return out;
}

} // namespace

Load loadOf(const Stuff& stuff) {
    Load load;
    std::vector<ride::MassProperties> all;
    add(load, all, "shell", shellOf(stuff, load.unweighed));
    add(load, all, "adhesive", glueOf(stuff));
    for (const BoughtPart& part : stuff.bought) {
        if (!part.mass) load.unweighed.push_back(part.name);
        add(load, all, part.name, boughtMass(part));
    }
    for (const RideFigures::Weight& w : stuff.ride.ballast)
        add(load, all, "ballast " + w.name, ride::pointMass(w.mass, w.at).value_or(ride::MassProperties{}));
    const Chassis& chassis = stuff.donor.chassis;
    if (chassis.mass > 0)
        add(load, all, "donor",
            ride::pointMass(chassis.mass, chassis.centre).value_or(ride::MassProperties{}));
    load.empty = ride::combined(all);
    for (const Person& who : stuff.donor.people) add(load, all, who.name, massOfPerson(who));
    load.all = ride::combined(all);
    return load;
}

} // namespace slab::trial
