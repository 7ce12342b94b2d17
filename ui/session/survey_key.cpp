#include "ui/session/survey_key.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

Project surveyKey(Project project) {
    project.scale.clear();
    project.title.clear();
    project.paper.clear();
    project.cut.clear();
    return project;
}

std::pair<double, double> rangeAround(double scale) {
    if (!(scale > 0) || !std::isfinite(scale)) scale = 1;
    const double step = std::pow(10.0, std::floor(std::log10(scale))) / 2;
    const double from = std::max(step / 5, std::floor(scale * 0.6 / step) * step);
    const double to = std::ceil(scale * 1.6 / step) * step;
    return {from, to};
}

} // namespace slab::ui
