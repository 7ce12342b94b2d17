#pragma once
#include "core/survey/survey.h"
#include <QRectF>
#include <QString>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

class QPainter;

namespace slab::ui {

/// What one picture of the rule needs.
struct RulePicture {
    QRectF body;       ///< the rule itself
    double stepsY = 0; ///< middle of the row of sheet counts
    double from = 0, to = 1, scale = 0;
    const ScaleSurvey* survey = nullptr; ///< may be null
    bool current = false;                ///< the survey is of this very document
    bool focus = false, held = false;
    bool slim = false; ///< without flags and sheet counts
    QString idle;      ///< said on the rule while it has no bands
    std::function<double(double)> xOf;
};
void paintRule(QPainter& painter, const RulePicture& picture);

/// "fits", "tight: joystick hand to hull/port" …
[[nodiscard]] QString bandWords(const FitBand& band, double at);
/// Where a band's words stand: at each end its own where they differ and there is room, else once, beside the
/// handle. Pixels.
[[nodiscard]] std::vector<std::pair<QRectF, QString>> bandTold(const FitBand& band, const QRectF& area,
                                                               double handle);
/// "5 sheets", or from where a panel is too large: "1 panel larger than its sheet".
[[nodiscard]] QString stepWords(const ScaleSurvey::Step& step);
/// "$ 99", as totals say it; empty where nothing is bought or panels are too large.
[[nodiscard]] QString costWords(const ScaleSurvey::Step& step, const QString& currency);
[[nodiscard]] QString tooLargeWords(int panels);

} // namespace slab::ui
