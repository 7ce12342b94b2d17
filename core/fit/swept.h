#pragma once
// What mechanisms do over their whole range, in the words of the fit.
#include "core/fit/floating.h"
#include "core/mechanisms/mechanisms.h"

namespace slab {

/// The fit with what the sweeps found of donor and rider: state, least clearance and least margin are the
/// worse of both. What the sweeps left out because something else of the same mechanism came nearer is looked
/// up as far as it comes nearer than all the rest.
/// @param set  with its sweeps done; @param plates  as cut, every move at 0
[[nodiscard]] FitResult withSwept(FitResult fit, const MechanismSet& set, const std::vector<FitSolid>& solids,
                                  const PlateSet& plates);

/// The same without sweeps: looked up here, against donor and rider alone, as the scale survey asks for.
[[nodiscard]] FitResult withMoving(FitResult fit, const MechanismSet& set,
                                   const std::vector<FitSolid>& solids, const PlateSet& plates);

/// The pair with the least margin at rest, swept or afloat; null when there is none.
/// @param afloat  may be null
[[nodiscard]] const FitPair* bindingPair(const FitResult& fit, const FloatFit* afloat);
/// The worse state of the two.
[[nodiscard]] FitState wholeState(const FitResult& fit, const FloatFit* afloat);

} // namespace slab
