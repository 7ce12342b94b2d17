#pragma once
// What moves and what it may meet: the things that sweepMechanisms() compares.
#include "core/mechanisms/mechanisms.h"
#include "core/mechanisms/sweep.h"

namespace slab::mechanisms {

struct Thing {
    enum class Kind {
        plate, ///< of the shell
        part,  ///< plate of a mechanism
        solid, ///< other part of a mechanism
        donor, ///< donor or rider
    };
    Kind kind = Kind::plate;
    std::string mechanism; ///< that it belongs to or moves with; empty = none
    std::string name;
    std::string group; ///< "donor" or "rider"
    std::vector<ConvexSolid> pieces;
    int motion = -1;   ///< index in MechanismSet::motions, -1 = stands still
    double wanted = 0; ///< clearance, mm
    MovingSolid::Meets meets = MovingSolid::Meets::all;
    std::string form{}; ///< of a plate
    bool round = false; ///< a round form, told as one
    PartRole role{};    ///< of a part or a solid in its mechanism
};

/// In the order of plates (those of the shell with the mechanisms' own), mechanism solids, donor and rider.
[[nodiscard]] std::vector<Thing> thingsOf(const MechanismSet& set, const PlateSet& plates,
                                          const std::vector<FitSolid>& solids);

/// How `a` moves as seen from `b`; what carries both is left out.
[[nodiscard]] Motion relativeMotion(const Motion& a, const Motion& b);

/// Clearance wanted between two things: a donor or rider solid's own, else the greater of both.
[[nodiscard]] double wantedBetween(const Thing& a, const Thing& b);

} // namespace slab::mechanisms
