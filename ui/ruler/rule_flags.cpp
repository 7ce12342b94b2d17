#include "ui/ruler/rule_flags.h"
#include "ui/ruler/rule_strip.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPolygonF>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

QString matchText(const StockMatch& m) {
    return QString::fromStdString(m.part + " = " + m.words);
}

bool feasibleAt(const ScaleSurvey& survey, double scale) {
    return std::any_of(survey.feasible.begin(), survey.feasible.end(),
                       [&](const FeasibleBand& b) { return scale >= b.from && scale <= b.to; });
}

/// What the rule shows there, from layouts that were searched for longer than the survey's own.
QString laidAt(const ScaleSurvey& survey, double scale) {
    const ScaleSurvey::Step* at = nullptr;
    for (const ScaleSurvey::Step& step : survey.sheetSteps)
        if (step.scale <= scale + 1e-9) at = &step;
    if (!at || at->tooLarge > 0 || at->sheets == 0) return {};
    const QString cost = costWords(*at, QString::fromStdString(survey.currency));
    return stepWords(*at) + (cost.isEmpty() ? QString() : ", " + cost + " to buy") +
           "; laid out better, it may be fewer.";
}

/// A pennant for the pick, a dart for the least scale, a small dart for a match.
void paintMark(QPainter& painter, const RuleFlag& flag, double x, double y, bool told) {
    const Palette& c = Theme::colours();
    painter.setPen(Qt::NoPen);
    if (flag.kind == RuleFlag::Kind::pick) {
        painter.setBrush(c.chosen);
        painter.drawPolygon(QPolygonF{{x, y - 11}, {x + 5.5, y - 5.5}, {x, y}, {x - 5.5, y - 5.5}});
        return;
    }
    const bool least = flag.kind == RuleFlag::Kind::least;
    const double half = least ? 5 : told ? 4.5 : 3;
    painter.setBrush(told ? c.ink : c.quiet);
    painter.drawPolygon(QPolygonF{{x - half, y - 1.6 * half}, {x + half, y - 1.6 * half}, {x, y}});
}

} // namespace

std::vector<RuleFlag> flagsOf(const ScaleSurvey& survey) {
    std::vector<RuleFlag> out;
    if (survey.pick.scale)
        out.push_back({*survey.pick.scale, RuleFlag::Kind::pick, "pick " + scaleText(*survey.pick.scale), 0});
    if (survey.leastFitting)
        out.push_back({*survey.leastFitting, RuleFlag::Kind::least,
                       "least that fits " + QString::fromStdString(printRatioUp(*survey.leastFitting)), 1});
    for (const StockMatch& m : survey.stock.matches)
        out.push_back({m.scale, RuleFlag::Kind::match, matchText(m),
                       2 + (feasibleAt(survey, m.scale) ? 0 : 2) + (m.inShed ? 0 : 1)});
    std::stable_sort(out.begin(), out.end(),
                     [](const RuleFlag& a, const RuleFlag& b) { return a.rank < b.rank; });
    return out;
}

QString pickWords(const ScaleSurvey& survey) {
    QStringList lines;
    if (survey.pick.scale) lines << "The pick is " + scaleText(*survey.pick.scale) + ".";
    for (const std::string& reason : survey.pick.reasons) lines << QString::fromStdString(reason);
    if (survey.pick.scale && !lines.isEmpty() && lines.back().contains("at most"))
        if (const QString laid = laidAt(survey, *survey.pick.scale); !laid.isEmpty()) lines.back() = laid;
    return lines.join('\n');
}

QString flagWords(const ScaleSurvey& survey, double scale, double reach) {
    QStringList lines;
    for (const RuleFlag& flag : flagsOf(survey)) {
        if (std::fabs(flag.scale - scale) > reach) continue;
        if (flag.kind == RuleFlag::Kind::pick)
            lines << pickWords(survey);
        else if (flag.kind == RuleFlag::Kind::least)
            lines << flag.words;
        else
            lines << scaleText(flag.scale) + ": " + flag.words;
    }
    return lines.join('\n');
}

void paintFlags(QPainter& painter, const RulePicture& p) {
    if (!p.survey) return;
    const Palette& c = Theme::colours();
    painter.setFont(Theme::words(12));
    const QFontMetricsF metrics(painter.font());
    const double y = p.body.top() - 2;
    std::vector<std::pair<double, double>> taken;
    const std::vector<RuleFlag> flags = flagsOf(*p.survey);
    std::vector<double> told(flags.size(), -1); // left end of its words
    for (std::size_t i = 0; i < flags.size(); ++i) {
        if (flags[i].scale < p.from || flags[i].scale > p.to) continue;
        const double x = p.xOf(flags[i].scale), width = metrics.horizontalAdvance(flags[i].words);
        constexpr double air = 10;
        // The pick says so on its right, so that what is nearly as good has room on its left.
        const bool pick = flags[i].kind == RuleFlag::Kind::pick;
        for (const double share : {pick ? 0.03 : 0.5, 0.97, 0.03}) { // of the words to the left of the mark
            const double left =
                std::clamp(x - share * width, p.body.left(), std::max(p.body.left(), p.body.right() - width));
            if (std::any_of(taken.begin(), taken.end(), [&](const auto& t) {
                    return left < t.second + air && left + width > t.first - air;
                }))
                continue;
            taken.emplace_back(left, left + width);
            told[i] = left;
            break;
        }
    }
    for (std::size_t i = flags.size(); i-- > 0;) { // the most wanted on top
        const RuleFlag& flag = flags[i];
        if (flag.scale < p.from || flag.scale > p.to) continue;
        paintMark(painter, flag, p.xOf(flag.scale), y, told[i] >= 0);
        if (told[i] < 0) continue;
        painter.setPen(flag.kind == RuleFlag::Kind::pick ? c.chosen : c.ink);
        painter.setFont(Theme::words(12, flag.kind == RuleFlag::Kind::pick));
        painter.drawText(QRectF(told[i] - 4, y - 30, metrics.horizontalAdvance(flag.words) + 12, 16),
                         Qt::AlignLeft | Qt::AlignVCenter, " " + flag.words);
        painter.setFont(Theme::words(12));
    }
}

} // namespace slab::ui
