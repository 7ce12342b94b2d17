#pragma once
// Turning moments in words.
#include "core/units/units.h"

namespace slab {

/// "12.3 N m", or for inches "9.1 lbf ft".
/// @source  1 lbf = 0.45359237 kg × 9.80665 m/s² (NIST SP 811), 1 ft = 0.3048 m (international foot, 1959)
[[nodiscard]] std::string printMoment(double newtonMetres, const UnitStyle& style);

} // namespace slab
