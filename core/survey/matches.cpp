#include "core/survey/matches.h"
#include "core/evaluate/stages.h"
#include <algorithm>
#include <cmath>
#include <functional>

namespace slab {

namespace {

constexpr int diameterCells = 64;

/// Outside of one feature over the scale.
class Outside {
public:
    Outside(const Project& project, const RoundFeature& feature) : m_project(project), m_feature(feature) {
        const auto q = read(1);
        m_sound = q && q->value > 0;
        if (!m_sound) return;
        m_atOne = q->value;
        m_plain = q->usesScale && !q->usesBuild;
        m_still = !q->usesScale;
    }
    [[nodiscard]] bool sound() const { return m_sound; }
    [[nodiscard]] bool still() const { return m_still; } ///< the same at every scale
    [[nodiscard]] bool plain() const { return m_plain; } ///< so many times the scale
    [[nodiscard]] double at(double scale) const {
        if (m_plain) return m_atOne * scale;
        if (m_still) return m_atOne;
        const auto q = read(scale);
        return q ? q->value : std::nan("");
    }

private:
    [[nodiscard]] std::optional<Quantity> read(double scale) const {
        std::vector<Finding> told;
        const auto q =
            evaluate(m_feature.diameter, resolveScope(m_project, scale, told), m_feature.space, Kind::length);
        return q ? std::optional(*q) : std::nullopt;
    }
    const Project& m_project;
    const RoundFeature& m_feature;
    double m_atOne = 0;
    bool m_sound = false, m_plain = false, m_still = false;
};

/// Where a function passes 0 between two scales of different sign.
double rootBetween(const std::function<double(double)>& f, double a, double b) {
    const bool rising = f(b) > 0;
    for (int i = 0; i < 200; ++i) {
        const double middle = (a + b) / 2;
        if (middle <= std::min(a, b) || middle >= std::max(a, b)) break;
        ((f(middle) > 0) == rising ? b : a) = middle;
    }
    return (a + b) / 2;
}

/// All scales at which the outside is `wanted`, in [from, to].
std::vector<double> scalesOf(const Outside& outside, double wanted, double from, double to) {
    std::vector<double> out;
    if (outside.plain()) {
        const double scale = wanted / outside.at(1);
        if (scale >= from && scale <= to) out.push_back(scale);
        return out;
    }
    const auto shortBy = [&](double scale) { return outside.at(scale) - wanted; };
    double last = from, lastValue = shortBy(from);
    for (int i = 1; i <= diameterCells; ++i) {
        const double at = i == diameterCells ? to : from + (to - from) * i / diameterCells;
        const double value = shortBy(at);
        if (lastValue == 0)
            out.push_back(last);
        else if ((lastValue < 0 && value > 0) || (lastValue > 0 && value < 0))
            out.push_back(rootBetween(shortBy, last, at));
        last = at;
        lastValue = value;
    }
    if (lastValue == 0) out.push_back(to);
    return out;
}

/// How far from `scale` towards `end` the outside differs from `wanted` by `tolerance` at most.
double within(const Outside& outside, double wanted, double tolerance, double scale, double end) {
    const auto over = [&](double s) { return std::abs(outside.at(s) - wanted) - tolerance; };
    if (outside.plain()) {
        const double edge = (wanted + (end > scale ? tolerance : -tolerance)) / outside.at(1);
        return end > scale ? std::min(edge, end) : std::max(edge, end);
    }
    const double step = (end - scale) / diameterCells;
    double good = scale;
    for (int i = 1; i <= diameterCells && step != 0; ++i) {
        const double at = i == diameterCells ? end : scale + step * i;
        if (over(at) > 0) return rootBetween(over, good, at);
        good = at;
    }
    return end;
}

class Matcher {
public:
    Matcher(const Project& project, double from, double to) : m_project(project), m_from(from), m_to(to) {
        std::vector<Finding> told;
        const RoundStockSet own = resolveRoundStock(project, resolveScope(project, from, told));
        m_out.tolerance = own.match;
        m_sizes = own.rounds;
        m_sizes.insert(m_sizes.end(), publishedRounds().begin(), publishedRounds().end());
    }
    StockMatches run() {
        for (const RoundFeature& feature : roundFeatures(m_project)) look(feature);
        std::stable_sort(m_out.matches.begin(), m_out.matches.end(),
                         [](const StockMatch& a, const StockMatch& b) { return a.scale < b.scale; });
        return std::move(m_out);
    }

private:
    void look(const RoundFeature& feature) {
        const Outside outside(m_project, feature);
        if (!outside.sound()) return;
        const auto match = [&](const RoundSize& size, double scale, double from, double to) {
            return StockMatch{scale,         from,      to,           feature.name,
                              feature.words, size.name, size.outside, size.onHand > 0};
        };
        if (outside.still()) {
            const RoundSize* best = nullptr;
            for (const RoundSize& size : m_sizes) {
                const double off = std::abs(size.outside - outside.at(1));
                if (off <= m_out.tolerance && (!best || off < std::abs(best->outside - outside.at(1))))
                    best = &size;
            }
            if (best) m_out.always.push_back(match(*best, m_from, m_from, m_to));
            return;
        }
        for (const RoundSize& size : m_sizes)
            for (const double scale : scalesOf(outside, size.outside, m_from, m_to))
                m_out.matches.push_back(match(size, scale,
                                              within(outside, size.outside, m_out.tolerance, scale, m_from),
                                              within(outside, size.outside, m_out.tolerance, scale, m_to)));
    }

    const Project& m_project;
    double m_from, m_to;
    std::vector<RoundSize> m_sizes;
    StockMatches m_out;
};

bool wordless(const Text& text) {
    return text.find_first_not_of(" \t") == Text::npos;
}

} // namespace

std::vector<RoundFeature> roundFeatures(const Project& project) {
    std::vector<RoundFeature> out;
    for (const Form& form : project.forms) {
        const auto* round = std::get_if<RoundShape>(&form.shape);
        if (!round || form.off || wordless(round->diameter)) continue;
        if (!wordless(round->top_diameter) && round->top_diameter != round->diameter) continue; // a cone
        const auto alike = std::find_if(out.begin(), out.end(),
                                        [&](const RoundFeature& f) { return f.diameter == round->diameter; });
        if (alike != out.end())
            ++alike->count;
        else
            out.push_back(
                {"form:" + form.name, form.name, "form:" + form.name, round->diameter, Space::subject});
    }
    for (RoundFeature& f : out)
        if (f.count > 1) f.words += " and " + std::to_string(f.count - 1) + " like it";
    for (const Turntable& t : project.mechanisms.turntables)
        if (!t.off && wordless(t.sides) && !wordless(t.diameter))
            out.push_back({"turntable:" + t.name, "drum of " + t.name, "mechanism:" + t.name, t.diameter,
                           Space::build});
    for (const Trunnion& t : project.mechanisms.trunnions)
        if (!t.off && !wordless(t.diameter))
            out.push_back(
                {"trunnion:" + t.name, "tube of " + t.name, "mechanism:" + t.name, t.diameter, Space::build});
    return out;
}

StockMatches stockMatches(const Project& project, double from, double to) {
    if (!(from > 0) || !(to >= from)) return {};
    return Matcher(project, from, to).run();
}

} // namespace slab
