#pragma once
// Marks above the rule: the pick, the least scale that fits, and where round features are stock parts.
#include "ui/ruler/rule_paint.h"
#include <vector>

namespace slab::ui {

struct RuleFlag {
    enum class Kind { pick, least, match };
    double scale = 0;
    Kind kind = Kind::match;
    QString words; ///< "pick 0.39", "4 in pipe = funnel"
    int rank = 0;  ///< who gives way where there is no room: the higher
    bool operator==(const RuleFlag&) const = default;
};
/// The most wanted first. Matches in the shed go before others, and those at scales where all holds before
/// the rest.
[[nodiscard]] std::vector<RuleFlag> flagsOf(const ScaleSurvey& survey);

/// What stands above one place of the rule, in words for a tooltip; empty if nothing does.
/// @param reach  in scale, to either side
[[nodiscard]] QString flagWords(const ScaleSurvey& survey, double scale, double reach);
/// The pick with its reasons, or what stands in its way, a line each; empty without a survey of anything.
[[nodiscard]] QString pickWords(const ScaleSurvey& survey);

/// Words where they have room, else the mark alone.
void paintFlags(QPainter& painter, const RulePicture& picture);

} // namespace slab::ui
