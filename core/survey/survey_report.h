#pragma once
#include "core/survey/survey.h"

namespace slab {

/// What a survey found, as the last part of resources/report.md tells: one JSON object.
[[nodiscard]] std::string surveyJson(const ScaleSurvey& survey);
/// The same in lines for people, lengths in the builder's units.
[[nodiscard]] std::string surveyText(const ScaleSurvey& survey, const UnitStyle& units);

} // namespace slab
