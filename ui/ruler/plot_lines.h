#pragma once
// Which margins the plot over the scale shows, on what axis, and in what words.
#include "core/survey/survey.h"
#include <QStringList>

namespace slab::ui {

/// Millimetres on the plot's axis for one unit of a margin: kilograms and angles are drawn so that 0 is 0.
[[nodiscard]] double plotted(const Constraint& constraint, double margin);

struct PlotLine {
    const Constraint* of = nullptr;
    bool strong = false; ///< binds somewhere, or is no single solid
    int style = 0;       ///< pattern and ink of the strong ones, in order
};
/// Those that bind at some scale first; then all others that must hold.
[[nodiscard]] std::vector<PlotLine> plotLines(const ScaleSurvey& survey);

/// Lowest and highest margin shown, mm on the axis; 0 lies between.
[[nodiscard]] std::pair<double, double> plotRange(const ScaleSurvey& survey);

/// "seat back to hull/port: 12 mm to spare", the least first, of what is known at a scale.
/// @param most  lines
[[nodiscard]] QStringList plotWordsAt(const ScaleSurvey& survey, double scale, const UnitStyle& units,
                                      int most);
/// The same for one constraint; empty if nothing is known of it there.
[[nodiscard]] QString plotWords(const Constraint& constraint, double scale, const UnitStyle& units);

} // namespace slab::ui
