#include "core/mechanisms/mechanisms.h"
#include "core/mechanisms/carries.h"

namespace slab {

void addPart(MechanismSet& set, Plate part, PartRole role) {
    set.roles.resize(set.parts.size()); // what was put in without one has none
    set.parts.push_back(std::move(part));
    set.roles.push_back(role);
}

MechanismSet resolveMechanisms(const MechanismInput& in) {
    MechanismSet set;
    addTurntables(in, set);
    addTrunnions(in, set); // after the turntables that they stand on
    addLinkages(in, set);
    addBelts(in, set);
    mechanisms::checkCarries(in, set);
    return set;
}

} // namespace slab
