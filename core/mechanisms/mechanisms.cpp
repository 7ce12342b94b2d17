#include "core/mechanisms/mechanisms.h"

namespace slab {

MechanismSet resolveMechanisms(const MechanismInput& in) {
    MechanismSet set;
    addTurntables(in, set);
    addTrunnions(in, set); // after the turntables that they stand on
    addLinkages(in, set);
    addBelts(in, set);
    return set;
}

} // namespace slab
