#pragma once
// The worst of all sweeps in one figure, for a look at many scales.
#include "core/base/job.h"
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// The pair that comes too near over its range; whatever meets is worse than whatever is near.
struct WorstSwept {
    bool meets = false;
    double margin = 1e9; ///< least clearance - wanted, mm, where nothing meets
    std::string moving, other;
    bool operator==(const WorstSwept&) const = default;
};

/// What sweepMechanisms() would find without donor and rider, told by its worst pair alone: ends with the
/// first pair that meets, and looks no deeper.
/// @param plates  as cut, every move at 0, with their joints
[[nodiscard]] WorstSwept worstSwept(const MechanismSet& set, const PlateSet& plates, const Job& job = {});

} // namespace slab
