#include "core/survey/edges.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr int mostRounds = 40;

bool outgrown(const SurveySample& s) {
    const ToldMargin* sheet = s.find("sheet");
    return sheet && !holds(sheet->margin);
}

/// What is compared with 0 to tell a change apart.
enum class Question { meets, holds, sheet };

double valueOf(const ToldMargin& t, Question q) {
    return q == Question::meets && t.of.touches ? t.margin.clearance : t.margin.margin;
}
bool failsAt(const ToldMargin& t, Question q) {
    return q == Question::meets ? meets(t) : !holds(t.margin);
}
bool asked(const ToldMargin& t, Question q) {
    return q == Question::sheet ? t.of.key == "sheet" : t.of.must;
}

/// Where the failing side's constraints pass 0, the last of them; nothing if one jumps.
std::optional<double> crossing(const SurveySample& bad, const SurveySample& good, Question q) {
    std::optional<double> last;
    for (const ToldMargin& t : bad.told) {
        if (!asked(t, q) || !failsAt(t, q)) continue;
        const ToldMargin* there = good.find(t.of.key);
        if (!there || t.margin.known != Known::exactly || there->margin.known != Known::exactly)
            return std::nullopt;
        const double a = valueOf(t, q), b = valueOf(*there, q);
        if (!(b > a)) return std::nullopt;
        const double share = std::clamp(-a / (b - a), 0.0, 1.0);
        const double at = bad.scale + (good.scale - bad.scale) * share;
        if (!last || std::abs(at - bad.scale) > std::abs(*last - bad.scale)) last = at;
    }
    return last;
}

class Refiner {
public:
    Refiner(std::vector<SurveySample>& samples, SurveySampler& sampler, const EdgeRules& rules)
        : m_samples(samples), m_sampler(sampler), m_rules(rules) {}

    void run(const Job& job) {
        for (int round = 0; round < mostRounds && !job.stopped(); ++round) {
            m_asked.clear();
            m_halved.clear();
            for (std::size_t i = 0; i + 1 < m_samples.size(); ++i) between(i, round);
            // A lone halving leaves a core idle: cut in three.
            if (m_asked.empty() && m_halved.size() == 1) {
                const auto& [a, b, layout] = m_halved.front();
                m_asked.push_back({a + (b - a) / 3, layout});
                m_asked.push_back({b - (b - a) / 3, layout});
            } else {
                for (const auto& [a, b, layout] : m_halved) m_asked.push_back({(a + b) / 2, layout});
            }
            if (m_asked.empty()) return;
            for (SurveySample& s : m_sampler.at(m_asked, job))
                if (s.sound) m_samples.push_back(std::move(s));
            std::stable_sort(m_samples.begin(), m_samples.end(),
                             [](const SurveySample& a, const SurveySample& b) { return a.scale < b.scale; });
        }
    }

private:
    struct Halved {
        double a, b;
        bool layout;
    };

    void between(std::size_t i, int round) {
        const SurveySample &a = m_samples[i], &b = m_samples[i + 1];
        const FitState from = a.state(), to = b.state();
        const std::size_t before = m_asked.size() + m_halved.size();
        if (from != to) {
            const bool met = (from == FitState::hits) != (to == FitState::hits);
            const bool failing = met ? from == FitState::hits : from != FitState::fits;
            approach(failing ? a : b, failing ? b : a, met ? Question::meets : Question::holds,
                     m_rules.tolerance);
        }
        if (m_asked.size() + m_halved.size() == before && outgrown(a) != outgrown(b))
            approach(outgrown(a) ? a : b, outgrown(a) ? b : a, Question::sheet, m_rules.sheetTolerance);
        if (m_asked.size() + m_halved.size() == before && from == to && round < m_rules.narrowLooks)
            if (const auto place = narrowPlace(i)) m_asked.push_back({*place, false});
    }

    void approach(const SurveySample& bad, const SurveySample& good, Question q, double tolerance) {
        const double low = std::min(bad.scale, good.scale), high = std::max(bad.scale, good.scale);
        const double width = high - low;
        const bool layout = q == Question::sheet;
        if (width <= tolerance) return;
        const auto root = crossing(bad, good, q);
        if (!root || width <= 3 * tolerance) {
            m_halved.push_back({low, high, layout});
            return;
        }
        const double off = std::max(0.4 * tolerance, 0.01 * width);
        const double first = std::clamp(*root - off, low + 0.1 * off, high - 2 * off);
        m_asked.push_back({first, layout});
        m_asked.push_back({std::clamp(*root + off, first + off, high - 0.1 * off), layout});
    }

    /// Where a curve that holds (fails) at both ends may fail (hold) in between.
    [[nodiscard]] std::optional<double> narrowPlace(std::size_t i) const {
        if (i == 0 || i + 2 >= m_samples.size()) return std::nullopt;
        const SurveySample &a = m_samples[i], &b = m_samples[i + 1];
        const FitState state = a.state();
        const Question q = state == FitState::hits ? Question::meets : Question::holds;
        if (state == FitState::fits) {
            for (const ToldMargin& t : a.told)
                if (t.of.must)
                    if (const auto at = dip(i, t.of.key, Question::holds)) return at;
            return std::nullopt;
        }
        if (state == FitState::tight)
            for (const ToldMargin& t : a.told)
                if (t.of.must && t.of.touches)
                    if (const auto at = dip(i, t.of.key, Question::meets)) return at;
        // What fails at both ends alone may hold between them.
        const ToldMargin *one = a.worst(), *other = b.worst();
        if (!one || !other) return std::nullopt;
        if (one->of.key == other->of.key) return dip(i, one->of.key, q);
        return meeting(i, one->of.key, other->of.key, q);
    }

    [[nodiscard]] std::optional<double> value(std::size_t i, const std::string& key, Question q) const {
        const ToldMargin* t = m_samples[i].find(key);
        if (!t || t->margin.known != Known::exactly) return std::nullopt;
        return valueOf(*t, q);
    }

    /// Lines through the two samples to either side of the interval, of one curve.
    [[nodiscard]] std::optional<double> dip(std::size_t i, const std::string& key, Question q) const {
        return lines(i, {value(i - 1, key, q), value(i, key, q)},
                     {value(i + 1, key, q), value(i + 2, key, q)});
    }
    /// The same, of one curve that goes and one that comes.
    [[nodiscard]] std::optional<double> meeting(std::size_t i, const std::string& going,
                                                const std::string& coming, Question q) const {
        return lines(i, {value(i - 1, going, q), value(i, going, q)},
                     {value(i + 1, coming, q), value(i + 2, coming, q)});
    }
    using Ends = std::pair<std::optional<double>, std::optional<double>>;
    [[nodiscard]] std::optional<double> lines(std::size_t i, const Ends& left, const Ends& right) const {
        if (!left.first || !left.second || !right.first || !right.second) return std::nullopt;
        const double x0 = m_samples[i - 1].scale, x1 = m_samples[i].scale, x2 = m_samples[i + 1].scale,
                     x3 = m_samples[i + 2].scale;
        if (!(x1 > x0) || !(x2 > x1) || !(x3 > x2)) return std::nullopt;
        const double rise = (*left.second - *left.first) / (x1 - x0);
        const double fall = (*right.second - *right.first) / (x3 - x2);
        if (std::abs(rise - fall) < 1e-9) return std::nullopt;
        const double at = (*right.first - fall * x2 - *left.second + rise * x1) / (rise - fall);
        const double there = *left.second + rise * (at - x1);
        const double room = 0.02 * (x2 - x1);
        if (at < x1 + room || at > x2 - room) return std::nullopt;
        return (there < 0) != (*left.second < 0) ? std::optional(at) : std::nullopt;
    }

    std::vector<SurveySample>& m_samples;
    SurveySampler& m_sampler;
    const EdgeRules& m_rules;
    std::vector<ScaleToLookAt> m_asked;
    std::vector<Halved> m_halved;
};

} // namespace

void refineEdges(std::vector<SurveySample>& samples, SurveySampler& sampler, const EdgeRules& rules,
                 const Job& job) {
    Refiner(samples, sampler, rules).run(job);
}

} // namespace slab
