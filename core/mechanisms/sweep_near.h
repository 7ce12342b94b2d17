#pragma once
#include "core/mechanisms/sweep_worst.h"

namespace slab {

/// worstSwept() that also tells of what comes nearer than wanted and `ample` more, mm: how much is to spare,
/// as a curve needs it.
[[nodiscard]] WorstSwept nearestSwept(const MechanismSet& set, const PlateSet& plates, double ample,
                                      const Job& job = {});

} // namespace slab
