#include "ui/ruler/plot_lines.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace slab::ui {

namespace {

/// The margin at a scale where it is known; nothing where it is only bounded.
std::optional<double> knownAt(const Constraint& c, double scale) {
    const Margin* near = c.nearest(scale);
    if (!near || near->known != Known::exactly) return std::nullopt;
    return c.margin(scale);
}

/// The lowest line at each scale that was looked at.
struct Lowest {
    std::set<const Constraint*> binding;
    double highest = -1e300; ///< of the lowest, mm on the axis
};
Lowest lowestOf(const ScaleSurvey& survey) {
    std::set<double> scales;
    for (const Constraint& c : survey.constraints)
        for (const Margin& m : c.points) scales.insert(m.scale);
    Lowest out;
    for (const double scale : scales) {
        const Constraint* least = nullptr;
        double value = 1e300;
        for (const Constraint& c : survey.constraints) {
            const auto m = c.must ? knownAt(c, scale) : std::nullopt;
            if (!m || plotted(c, *m) >= value) continue;
            value = plotted(c, *m);
            least = &c;
        }
        if (!least) continue;
        out.binding.insert(least);
        out.highest = std::max(out.highest, value);
    }
    return out;
}

QString amountWords(const Constraint& c, double value, const UnitStyle& units) {
    const std::string text = c.unit == Constraint::Unit::mass    ? printMass(value, units)
                             : c.unit == Constraint::Unit::angle ? printAngle(value)
                             : c.unit == Constraint::Unit::speed ? trial::speedWords(value, units)
                                                                 : printFine(value, units);
    return QString::fromStdString(text);
}

} // namespace

double plotted(const Constraint& constraint, double margin) {
    constexpr double perKilogram = 4, perDegree = 10, perSpeed = 0.05;
    if (constraint.unit == Constraint::Unit::mass) return margin * perKilogram;
    if (constraint.unit == Constraint::Unit::angle) return margin * 180 / std::numbers::pi * perDegree;
    if (constraint.unit == Constraint::Unit::speed) return margin * perSpeed;
    return margin;
}

std::vector<PlotLine> plotLines(const ScaleSurvey& survey) {
    const Lowest lowest = lowestOf(survey);
    std::vector<PlotLine> strong, rest;
    for (const Constraint& c : survey.constraints) {
        const bool single = c.key.starts_with("fit:");
        if (lowest.binding.contains(&c) || (!single && !c.jumps && c.key != "within"))
            strong.push_back({&c, true, static_cast<int>(strong.size())});
        else if (c.must || c.jumps)
            rest.push_back({&c, false, 0});
    }
    strong.insert(strong.end(), rest.begin(), rest.end());
    return strong;
}

std::pair<double, double> plotRange(const ScaleSurvey& survey) {
    const double top = lowestOf(survey).highest;
    const double high = top > 0 ? std::clamp(1.6 * top, 40.0, 250.0) : 60;
    const double low = top > 0 ? -0.6 * high : std::min(-0.6 * high, std::max(1.5 * top, -250.0));
    return {low, high};
}

QString plotWords(const Constraint& c, double scale, const UnitStyle& units) {
    const Margin* near = c.nearest(scale);
    const auto m = c.margin(scale);
    if (!near || !m) return {};
    QString what = QString::fromStdString(c.words);
    const QString binding = QString::fromStdString(near->binding);
    if (c.key.starts_with("fit:") && !binding.isEmpty()) what += " to " + binding;
    if (near->known == Known::atMost) return what + ": " + binding + " meet";
    if (near->known == Known::atLeast)
        return *m > 0 ? what + ": more than " + amountWords(c, *m, units) + " to spare" : what + ": clear";
    if (*m >= 0) return what + ": " + amountWords(c, *m, units) + " to spare";
    return what + ": " + amountWords(c, -*m, units) + " short";
}

QStringList plotWordsAt(const ScaleSurvey& survey, double scale, const UnitStyle& units, int most) {
    std::vector<std::pair<double, QString>> all;
    for (const Constraint& c : survey.constraints) {
        const QString words = plotWords(c, scale, units);
        const Margin* near = c.nearest(scale);
        if (words.isEmpty() || near->known == Known::atLeast) continue;
        all.emplace_back(near->known == Known::atMost ? -1e9 : plotted(c, *c.margin(scale)), words);
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    QStringList out;
    for (const auto& [value, words] : all)
        if (out.size() < most) out << words;
    return out;
}

} // namespace slab::ui
