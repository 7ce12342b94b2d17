#pragma once
// The scale that is advised.
#include "core/survey/sampler.h"
#include "core/units/units.h"

namespace slab {

/// The scale at which all holds that must, and if it can be what is worth having: ways out, sight, and all
/// panels on their sheets; of those one with the most round features that are stock parts, just where one of
/// them is the same if it can be; of those the one with the most to spare, and within `pickPlay` of that the
/// roundest number.
/// @param survey  all but its pick
[[nodiscard]] std::optional<double> pickScale(const ScaleSurvey& survey);
inline constexpr double pickPlay = 1; ///< mm

/// Number of features that are stock parts at a scale.
[[nodiscard]] int matchesAt(const StockMatches& stock, double scale);
/// Round multiple in [low, high], nearest to `wish`: of 0.1 if there is one, else of 0.05, 0.02, 0.01 …
[[nodiscard]] double roundestIn(double low, double high, double wish);

/// What speaks for a scale, at which everything was tried.
[[nodiscard]] std::vector<std::string> pickReasons(const ScaleSurvey& survey, const SurveySample& there,
                                                   const UnitStyle& units);
/// What stands in the way where nothing can be picked, at the scale where least is missing.
[[nodiscard]] ScalePick missedPick(const ScaleSurvey& survey, const std::vector<SurveySample>& samples,
                                   const UnitStyle& units);

} // namespace slab
