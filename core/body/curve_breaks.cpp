// Where facets end on a curved edge.
#include "core/body/curve_path.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

/// Chord errors of the breaks' facets.
std::vector<double> errorsOf(const CurvePath& path, const std::vector<double>& breaks) {
    std::vector<double> errors;
    for (std::size_t i = 1; i < breaks.size(); ++i)
        errors.push_back(deviationOf(path, breaks[i - 1], breaks[i]));
    return errors;
}

/// Breaks at equal shares of a density that is constant over each of the old facets.
std::vector<double> shared(const std::vector<double>& breaks, const std::vector<double>& weights, int count) {
    double all = 0;
    for (const double w : weights) all += w;
    std::vector<double> next{breaks.front()};
    std::size_t i = 0;
    double before = 0;
    for (int k = 1; k < count; ++k) {
        const double wanted = all * k / count;
        while (i + 1 < weights.size() && before + weights[i] < wanted) before += weights[i++];
        const double share = weights[i] > 0 ? std::clamp((wanted - before) / weights[i], 0.0, 1.0) : 0.5;
        next.push_back(breaks[i] + share * (breaks[i + 1] - breaks[i]));
    }
    next.push_back(breaks.back());
    return next;
}

/// Chord errors made equal: they grow with the square of a facet's length, so their roots are shared out
/// anew.
std::vector<double> evened(const CurvePath& path, std::vector<double> breaks) {
    constexpr int rounds = 40;
    std::vector<double> best = breaks;
    double least = deviationOf(path, breaks);
    for (int round = 0; round < rounds; ++round) {
        std::vector<double> weights = errorsOf(path, breaks);
        const double high = *std::max_element(weights.begin(), weights.end());
        const double low = *std::min_element(weights.begin(), weights.end());
        if (high < least) {
            least = high;
            best = breaks;
        }
        if (high <= 0 || high - low <= 1e-12 * high) break;
        for (double& w : weights) w = std::sqrt(w + 1e-9 * high);
        breaks = shared(breaks, weights, static_cast<int>(weights.size()));
    }
    return best;
}

/// Its curvature changes sign somewhere.
bool inflects(const CurvePath& path) {
    constexpr int looks = 16; // in each piece
    constexpr double straight = 1e-9;
    const double end = endOf(path), h = 0.5 / looks;
    double before = 0;
    for (double t = h; t < end - h / 2; t += 2 * h) {
        const Vec2 a = pointAt(path, t - h), b = pointAt(path, t), c = pointAt(path, t + h);
        const double turn = cross2(b - a, c - b);
        if (std::abs(turn) <= straight * (b - a).norm() * (c - b).norm()) continue;
        if (before * turn < 0) return true;
        before = turn;
    }
    return false;
}

/// One place for each break, layer by layer, with the least greatest deviation of the chords between them.
/// @param layers  places of each break, rising; the first and the last hold one
template <class Error>
std::vector<double> leastThrough(const std::vector<std::vector<double>>& layers, Error error) {
    std::vector<std::vector<double>> least{{0}};
    std::vector<std::vector<std::size_t>> from{{0}};
    for (std::size_t k = 1; k < layers.size(); ++k) {
        least.emplace_back(layers[k].size(), std::numeric_limits<double>::infinity());
        from.emplace_back(layers[k].size(), 0);
        for (std::size_t j = 0; j < layers[k].size(); ++j)
            for (std::size_t i = layers[k - 1].size(); i-- > 0;) {
                if (layers[k - 1][i] >= layers[k][j] || least[k - 1][i] >= least[k][j]) continue;
                const double worst = std::max(least[k - 1][i], error(layers[k - 1][i], layers[k][j]));
                if (worst >= least[k][j]) continue;
                least[k][j] = worst;
                from[k][j] = i;
            }
    }
    std::vector<double> breaks(layers.size());
    std::size_t at = 0;
    for (std::size_t k = layers.size(); k-- > 0; at = from[k][at]) breaks[k] = layers[k][at];
    return breaks;
}

/// Deviations between places on a path, from the places between them alone; beyond `bound` no further.
class Sampled {
public:
    Sampled(const CurvePath& path, std::size_t steps, double bound)
        : m_end(endOf(path)), m_bound(bound), m_steps(steps) {
        for (std::size_t i = 0; i <= steps; ++i) m_points.push_back(pointAt(path, at(i)));
        m_errors.assign((steps + 1) * (steps + 1), -1);
    }
    [[nodiscard]] double at(std::size_t i) const {
        return m_end * static_cast<double>(i) / static_cast<double>(m_steps);
    }
    double error(std::size_t a, std::size_t b) {
        double& known = m_errors[a * (m_steps + 1) + b];
        if (known < 0) {
            const auto off = [&](std::size_t i) { return toSegment(m_points[i], m_points[a], m_points[b]); };
            known = b > a + 1 ? off((a + b) / 2) : 0;
            for (std::size_t i = a + 1; i < b && known <= m_bound; ++i) known = std::max(known, off(i));
        }
        return known;
    }
    double error(double from, double to) { return error(index(from), index(to)); }

private:
    [[nodiscard]] std::size_t index(double t) const {
        return static_cast<std::size_t>(std::lround(t / m_end * static_cast<double>(m_steps)));
    }
    double m_end, m_bound;
    std::size_t m_steps;
    std::vector<Vec2> m_points;
    std::vector<double> m_errors;
};

/// Over all choices of places on a grid, then on ever finer ones about the last choice.
/// @param bound  deviation that is known already, mm
std::vector<double> searched(const CurvePath& path, int count, double bound) {
    constexpr std::size_t places = 192, most = 256;
    constexpr int rounds = 24, wideRounds = 3;
    constexpr double unseen = 1.05; // deviations seen at places alone may be so much too small
    const std::size_t steps = std::clamp(path.size() * 16, places, most);
    Sampled grid(path, steps, bound * unseen);
    std::vector<double> all;
    for (std::size_t i = 1; i < steps; ++i) all.push_back(grid.at(i));
    std::vector<std::vector<double>> layers(static_cast<std::size_t>(count) + 1, all);
    layers.front() = {0};
    layers.back() = {endOf(path)};
    std::vector<double> breaks = leastThrough(layers, [&](double a, double b) { return grid.error(a, b); });
    double step = endOf(path) / static_cast<double>(steps);
    const auto exact = [&](double a, double b) { return deviationOf(path, a, b); };
    for (int round = 0; round < rounds; ++round) {
        const bool wide = round < wideRounds; // what the places between did not show
        const int reach = wide ? 6 : 2;
        for (std::size_t k = 1; k + 1 < layers.size(); ++k) {
            layers[k].clear();
            for (int half = -reach; half <= reach; ++half) // half steps
                if (const double t = breaks[k] + 0.5 * half * step; t > 0 && t < endOf(path))
                    layers[k].push_back(t);
        }
        breaks = leastThrough(layers, exact);
        if (!wide) step *= 0.6;
    }
    return breaks;
}

} // namespace

double deviationOf(const CurvePath& path, const std::vector<double>& breaks) {
    const auto errors = errorsOf(path, breaks);
    return errors.empty() ? 0 : *std::max_element(errors.begin(), errors.end());
}

std::vector<double> equalBreaks(const CurvePath& path, int count) {
    constexpr int fine = 64;
    std::vector<double> marks{0}, lengths;
    const int steps = fine * static_cast<int>(path.size());
    for (int i = 1; i <= steps; ++i) {
        marks.push_back(endOf(path) * i / steps);
        lengths.push_back((pointAt(path, marks.back()) - pointAt(path, *(marks.end() - 2))).norm());
    }
    return shared(marks, lengths, count);
}

std::vector<double> bestBreaks(const CurvePath& path, int count) {
    std::vector<double> steps;
    for (int i = 0; i <= count; ++i) steps.push_back(endOf(path) * i / count);
    if (count < 2) return steps;
    const std::vector<double> lengths = equalBreaks(path, count);
    std::vector<double> best = steps;
    double least = deviationOf(path, steps);
    for (const std::vector<double>& other : {lengths, evened(path, steps), evened(path, lengths)})
        if (const double d = deviationOf(path, other); d < least * (1 - 1e-12)) {
            least = d;
            best = other;
        }
    // Where it winds, more or longer facets to one side of an inflection may do better than equal errors.
    constexpr int few = 32;         // of many, each is short against the distance between inflections
    constexpr double alike = 0.999; // of the greatest
    const auto errors = errorsOf(path, best);
    const bool uneven = *std::min_element(errors.begin(), errors.end()) < alike * least;
    if (count <= few && least > 0 && (uneven || inflects(path)))
        if (std::vector<double> other = searched(path, count, least);
            deviationOf(path, other) < least * (1 - 1e-12))
            best = std::move(other);
    return best;
}

std::vector<double> breaksWithin(const CurvePath& path, double tolerance, int most) {
    if (!(tolerance > 0)) return {};
    double sum = 0;
    for (const double e : errorsOf(path, bestBreaks(path, 8))) sum += std::sqrt(e / tolerance);
    int count = std::clamp(static_cast<int>(std::ceil(sum)), 1, most);
    std::vector<double> breaks = bestBreaks(path, count);
    while (deviationOf(path, breaks) > tolerance * (1 + 1e-9)) {
        if (count >= most) return {};
        breaks = bestBreaks(path, ++count);
    }
    while (count > 1) {
        std::vector<double> fewer = bestBreaks(path, count - 1);
        if (deviationOf(path, fewer) > tolerance * (1 + 1e-9)) break;
        breaks = std::move(fewer);
        --count;
    }
    return breaks;
}

} // namespace slab
