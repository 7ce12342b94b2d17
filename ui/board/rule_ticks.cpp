#include "ui/board/rule_ticks.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double leastMark = 5; // px
constexpr double inch = 25.4;   // mm
constexpr double most = 4000;   // marks

std::vector<double> inchSteps() {
    std::vector<double> steps;
    // 1/16 in to 1 in, then 3 in, 6 in, 1 ft, 5 ft, 10 ft … : each divides the next.
    for (const double inches :
         {0.0625, 0.125, 0.25, 0.5, 1.0, 3.0, 6.0, 12.0, 60.0, 120.0, 600.0, 1200.0, 6000.0, 12000.0})
        steps.push_back(inches * inch);
    return steps;
}

std::vector<double> metricSteps() {
    std::vector<double> steps;
    for (const double mm : {0.1, 0.5, 1.0, 5.0, 10.0, 50.0, 100.0, 500.0, 1e3, 5e3, 1e4, 5e4, 1e5, 5e5})
        steps.push_back(mm);
    return steps;
}

bool inches(Unit unit) {
    return unit == Unit::in || unit == Unit::ft;
}

/// Figures may stand closer than the marks of every rank: each of these is a whole number of marks too.
const std::vector<double>& namedSteps(bool imperialRule) {
    static const auto made = [](bool inch) {
        std::vector<double> steps;
        if (inch) {
            for (const double one :
                 {0.0625, 0.125, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 60.0, 120.0, 240.0})
                steps.push_back(one * 25.4);
            for (double feet = 50; feet <= 10000; feet *= 2) steps.push_back(feet * 12 * 25.4);
        } else {
            for (double decade = 0.1; decade < 1e6; decade *= 10)
                for (const double times : {1.0, 2.0, 5.0}) steps.push_back(decade * times);
        }
        return steps;
    };
    static const std::vector<double> imperial = made(true), metric = made(false);
    return imperialRule ? imperial : metric;
}

double namedStep(double pixelsPerMm, double room, double fine, Unit unit) {
    for (const double step : namedSteps(inches(unit))) {
        const double marks = step / fine;
        if (step * pixelsPerMm >= room && std::abs(marks - std::round(marks)) < 1e-6) return step;
    }
    return ruleStep(pixelsPerMm, room, unit);
}

/// Figures of a ruler are as short as they can be: the step says which digits count.
std::string figure(double mm, double step, UnitStyle units) {
    if (inches(units.unit)) return printLength(mm, units);
    units.decimals = step < 0.9999 ? 1 : 0;
    const std::string words = printLength(mm, units);
    return words.substr(0, words.find_last_of("0123456789") + 1); // the unit stands where the rulers meet
}

} // namespace

const std::vector<double>& ruleSteps(Unit unit) {
    static const std::vector<double> imperial = inchSteps(), metric = metricSteps();
    return inches(unit) ? imperial : metric;
}

double ruleStep(double pixelsPerMm, double leastPx, Unit unit) {
    const std::vector<double>& steps = ruleSteps(unit);
    const auto at =
        std::find_if(steps.begin(), steps.end(), [&](double s) { return s * pixelsPerMm >= leastPx; });
    return at == steps.end() ? steps.back() : *at;
}

std::vector<RuleTick> ruleTicks(double from, double to, double pixelsPerMm, const UnitStyle& units,
                                double room) {
    const std::vector<double>& steps = ruleSteps(units.unit);
    const double fine = ruleStep(pixelsPerMm, leastMark, units.unit);
    double named = namedStep(pixelsPerMm, room, fine, units.unit);
    // On a short rule at least two figures, if they have any room at all.
    constexpr double leastRoom = 33, hidden = 24; // px; the ends may be cut off or lie under an axis's name
    const double lost = hidden / pixelsPerMm;
    if (std::floor((to - lost) / named) - std::ceil((from + lost) / named) < 1)
        named = namedStep(pixelsPerMm, std::min(room, leastRoom), fine, units.unit);
    const auto first = std::find(steps.begin(), steps.end(), fine);
    std::vector<RuleTick> ticks;
    const double begin = std::ceil(from / fine - 1e-9), end = std::floor(to / fine + 1e-9);
    if (!(end - begin <= most)) return ticks;
    for (double i = begin; i <= end; ++i) {
        RuleTick tick{i * fine, 0, {}};
        for (auto step = first; step != steps.end(); ++step) {
            const double count = tick.at / *step;
            if (std::abs(count - std::round(count)) > 1e-6) break;
            tick.rank = static_cast<int>(step - first);
        }
        const double count = tick.at / named;
        if (std::abs(count - std::round(count)) < 1e-6) tick.words = figure(tick.at, named, units);
        ticks.push_back(std::move(tick));
    }
    return ticks;
}

} // namespace slab::ui
