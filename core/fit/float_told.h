#pragma once
// The fit afloat in figures and findings.
#include "core/fit/floating.h"
#include <map>

namespace slab {

struct FloatTold {
    const FitResult& rest;
    const std::vector<FitSolid>& solids;
    const PlateSet& plates;
    const std::vector<std::string>& linkages; ///< names
    const UnitStyle& style;
    std::map<std::string, std::string> owners; ///< mechanisms by the names of their parts that are no plates
    /// What would clear the worst pair of a finding, in words; empty = the usual words.
    std::function<std::string(const FloatPair&)> remedy;
};

/// The worse of as shown, swept and posed; fits where the pair is not known.
[[nodiscard]] FitState stateAtRest(const FitResult& rest, const FitPair& pair);

/// Totals of the pairs, and one finding for all pairs of one solid that share a state and were better at
/// rest.
void tellFloat(FloatFit& fit, const FloatTold& told);

} // namespace slab
