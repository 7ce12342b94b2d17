#pragma once
#include "ui/ruler/plot_lines.h"
#include <QPen>
#include <QRectF>
#include <functional>
#include <optional>

class QPainter;

namespace slab::ui {

/// What one picture of the plot needs.
struct PlotPicture {
    QRectF area;
    double from = 0, to = 1, scale = 0;
    std::optional<double> reading; ///< the scale that is read
    const ScaleSurvey* survey = nullptr;
    bool current = false, focus = false;
    UnitStyle units;
    std::function<double(double)> xOf;
};
/// Margins over the scale with the zero line, the scales at which all holds, the handle's place and what is
/// read.
void paintPlot(QPainter& painter, const PlotPicture& picture);

/// Ink and pattern of the `style`th strong line: neighbours differ in both.
[[nodiscard]] QPen plotPen(int style);

} // namespace slab::ui
