#pragma once
// Looks between samples where something changes: edges of bands by root finding, and narrow places.
#include "core/survey/sampler.h"

namespace slab {

struct EdgeRules {
    double tolerance = surveyTolerance; ///< of the edges of bands
    double sheetTolerance = 1e-3;       ///< of the scale at which the first panel outgrows its sheet
    int narrowLooks = 2; ///< times that places are looked for where a curve may dip and come back
};

/// Adds samples until every change between neighbours lies within the tolerance.
///
/// A constraint that fails at one side alone passes 0 about where the line between both sides does: looked at
/// on both sides of that place. What jumps is halved. Where the lines through the two samples before and the
/// two samples behind an interval meet on the other side of 0, the place where they meet is looked at.
/// @param samples  rising in scale
void refineEdges(std::vector<SurveySample>& samples, SurveySampler& sampler, const EdgeRules& rules,
                 const Job& job);

} // namespace slab
