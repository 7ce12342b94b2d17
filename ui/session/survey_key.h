#pragma once
// Which documents one scale survey holds for, and which scales it covers.
#include "core/document/project.h"
#include <utility>

namespace slab::ui {

/// What the survey reads: the document without its scale and without what never changes a fit.
[[nodiscard]] Project surveyKey(Project project);
/// A range of round figures around a scale that leaves room on both sides of the handle.
[[nodiscard]] std::pair<double, double> rangeAround(double scale);

} // namespace slab::ui
