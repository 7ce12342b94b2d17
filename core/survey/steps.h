#pragma once
// Sheet counts over the scale.
#include "core/survey/sampler.h"

namespace slab {

/// From the samples that were laid out. Fewer sheets and less money can never be needed at a smaller scale: a
/// layout of the larger panels serves the smaller ones, as long as all of them lie on it.
[[nodiscard]] std::vector<ScaleSurvey::Step> stepsOf(const std::vector<SurveySample>& samples);

/// Neighbours that say the same are one step, at the cost of the dearest.
[[nodiscard]] std::vector<ScaleSurvey::Step> joinedSteps(const std::vector<ScaleSurvey::Step>& all);

} // namespace slab
