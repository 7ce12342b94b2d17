#include "core/fit/pieces.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

FitState stateOf(const Probe& p) {
    return p.clearance < 0 ? FitState::hits : p.margin < -touchDepth ? FitState::tight : FitState::fits;
}

/// Names what binds; a band that fits binds nothing.
std::string bindingOf(const Probe& p) {
    return stateOf(p) == FitState::fits ? std::string() : p.binding;
}

struct Sample {
    double at;
    Probe probe;
};

class BandFinder {
public:
    BandFinder(const std::function<Probe(double)>& probe, double tolerance, const Job& job)
        : m_probe(probe), m_tolerance(tolerance), m_job(job) {}

    void between(const Sample& a, const Sample& b) {
        if (stateOf(a.probe) == stateOf(b.probe)) {
            bind((a.at + b.at) / 2, bindingOf(b.probe));
            return;
        }
        if (b.at - a.at <= m_tolerance || m_job.stopped()) {
            start(b);
            return;
        }
        const double middle = (a.at + b.at) / 2;
        const Sample m{middle, m_probe(middle)};
        // Both halves: from hits to fits there is a tight stretch between.
        between(a, m);
        between(m, b);
    }
    void start(const Sample& s) {
        if (!m_bands.empty()) m_bands.back().to = s.at;
        m_bands.push_back({s.at, s.at, stateOf(s.probe), {}});
        bind(s.at, bindingOf(s.probe));
    }
    std::vector<FitBand> finished(double to) {
        if (!m_bands.empty()) m_bands.back().to = to;
        return std::move(m_bands);
    }

private:
    void bind(double from, const std::string& pair) {
        auto& bindings = m_bands.back().bindings;
        if (!pair.empty() && (bindings.empty() || bindings.back().pair != pair))
            bindings.push_back({from, pair});
    }

    const std::function<Probe(double)>& m_probe;
    double m_tolerance;
    const Job& m_job;
    std::vector<FitBand> m_bands;
};

} // namespace

std::string FitBand::bindingAt(double at) const {
    std::string pair = bindings.empty() ? std::string() : bindings.front().pair;
    for (const Binding& b : bindings)
        if (b.from <= at) pair = b.pair;
    return pair;
}

std::vector<FitBand> fitBands(const std::function<Probe(double)>& probe, double from, double to, int samples,
                              double tolerance, const Job& job) {
    if (!(to >= from) || samples < 1) return {};
    BandFinder finder(probe, std::max(tolerance, 1e-12 * (std::abs(from) + std::abs(to))), job);
    Sample last{from, probe(from)};
    finder.start(last);
    for (int i = 1; i <= samples && !job.stopped(); ++i) {
        const double at = i == samples ? to : from + (to - from) * i / samples;
        const Sample next{at, probe(at)};
        finder.between(last, next);
        last = next;
        job.report(static_cast<double>(i) / samples);
    }
    return finder.finished(last.at);
}

Expected<double> leastFittingScale(const std::function<Probe(double)>& probe, double from, double to,
                                   double tolerance, const Job& job) {
    constexpr int samples = 48;
    const auto fits = [&](double at) { return probe(at).margin >= -touchDepth; };
    if (!fits(to))
        return fail("never-fits", "Donor and rider do not fit at the largest scale looked at.", "/scale",
                    "Look at larger scales, move the donor, or change the body.");
    double fitting = to;
    double failing = from;
    bool found = false;
    for (int i = samples - 1; i >= 0 && !found; --i) {
        if (job.stopped()) return fail("stopped", "The search was stopped.");
        const double at = from + (to - from) * i / samples;
        found = !fits(at);
        (found ? failing : fitting) = at;
    }
    if (!found) return from;
    while (fitting - failing > tolerance) {
        if (job.stopped()) return fail("stopped", "The search was stopped.");
        const double middle = (fitting + failing) / 2;
        if (middle <= failing || middle >= fitting) break; // as near as numbers come
        (fits(middle) ? fitting : failing) = middle;
    }
    return fitting;
}

namespace {

/// Least margin of all solids by their common shift along x.
class MarginAlong {
public:
    MarginAlong(const std::vector<FitSolid>& solids, const PlateSet& plates)
        : m_solids(solids), m_pieces(plates) {
        for (const FitSolid& s : solids) m_homes.emplace_back(s.shape);
    }
    [[nodiscard]] bool empty() { return m_solids.empty() || m_pieces.all().empty(); }
    /// Exact where it is not below `floor`; else some value below it.
    double at(double x, double floor) {
        double least = 1e9;
        for (std::size_t i = 0; i < m_solids.size() && least >= floor; ++i)
            least = std::min(least, leastMarginOf(m_solids[i], m_homes[i], m_pieces, Vec3(x, 0, 0), floor));
        return least;
    }
    /// How far a stretch not worse than `floor` goes on from x to `end`, to 0.01 mm.
    double reach(double x, double end, double step, double floor) {
        const double way = end >= x ? step : -step;
        const auto past = [&](double p) { return (p - end) * way > 0; };
        double good = x, bad = x + way;
        while (!past(bad) && at(bad, floor) >= floor) good = bad, bad += way;
        if (past(bad)) {
            if (at(end, floor) >= floor) return end;
            bad = end;
        }
        while (std::abs(bad - good) > 0.01) {
            const double middle = (good + bad) / 2;
            (at(middle, floor) >= floor ? good : bad) = middle;
        }
        return good;
    }

private:
    const std::vector<FitSolid>& m_solids;
    Pieces m_pieces;
    std::vector<Prepared> m_homes;
};

/// Shifts that keep the solids between the ends of the body, or the body between theirs. There are both.
std::pair<double, double> shiftsWithin(const std::vector<FitSolid>& solids, const PlateSet& plates) {
    const Box3 group = boundsOf(solids).value(), body = boundsOf(plates).value();
    return std::minmax({body.min.x() - group.min.x(), body.max.x() - group.max.x()});
}

} // namespace

double bestPlace(const std::vector<FitSolid>& solids, const PlateSet& plates) {
    MarginAlong margin(solids, plates);
    if (margin.empty()) return 0;
    const auto [from, to] = shiftsWithin(solids, plates);
    constexpr int samples = 64;
    const double step = (to - from) / samples;
    if (!(step > 1e-9)) return from;
    double best = from, bestMargin = -1e300;
    const auto consider = [&](double x) {
        const double m = margin.at(x, bestMargin);
        if (m > bestMargin + 1e-9) {
            best = x;
            bestMargin = m;
        }
    };
    // From the middle outward: the best are found soon, and the rest need not be measured to the end.
    for (int i = 0; i <= samples; ++i)
        consider((from + to) / 2 + step * ((i % 2 == 0 ? 1 : -1) * ((i + 1) / 2)));
    // Between neighbours of the best sample the least margin rises, then falls.
    double low = std::max(from, best - step), high = std::min(to, best + step);
    constexpr double share = std::numbers::phi - 1;
    double x = high - share * (high - low), y = low + share * (high - low);
    double fx = margin.at(x, -1e300), fy = margin.at(y, -1e300);
    while (high - low > 0.01) {
        if (fx >= fy) {
            high = y;
            y = x;
            fy = fx;
            x = high - share * (high - low);
            fx = margin.at(x, -1e300);
        } else {
            low = x;
            x = y;
            fx = fy;
            y = low + share * (high - low);
            fy = margin.at(y, -1e300);
        }
    }
    consider((low + high) / 2);
    const double floor = bestMargin - 1e-9;
    return (margin.reach(best, from, step, floor) + margin.reach(best, to, step, floor)) / 2;
}

} // namespace slab
