#include "core/survey/squeeze.h"
#include "core/survey/sampler.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace slab {

namespace {

/// The document stretched and looked at as the survey does.
class Trier {
public:
    Trier(const Project& project, double scale, const Job& job)
        : m_project(project), m_scale(scale), m_job(job) {
        m_project.scale = printExact(scale, Unit::none);
        m_made = m_evaluator.evaluate(m_project, Effort::survey, 0, job);
        m_stops = stopsOf(m_made);
    }
    /// @error what stretched() refuses along an axis
    [[nodiscard]] Expected<void> check(int axis) const {
        const auto made = stretched(m_project, m_made, along(axis, squeezeMost));
        return made ? Expected<void>() : tl::make_unexpected(made.error());
    }
    [[nodiscard]] bool anybody() const {
        return m_made.donor && !m_made.donor->solids.empty() && m_made.body &&
               m_made.body->bounds.size().norm() > 0;
    }

    /// The least change along one axis with which everything holds, more or less of it; nothing if none does.
    [[nodiscard]] std::optional<Squeeze> least(int axis) {
        const auto more = least(axis, 1), less = least(axis, -1);
        if (!more || !less) return more ? more : less;
        return more->factor * less->factor <= 1 ? more : less;
    }

private:
    [[nodiscard]] static Vec3 along(int axis, double factor) {
        Vec3 by = Vec3::Ones();
        by[axis] = factor;
        return by;
    }

    /// Steps first, since what is much larger may fail elsewhere; then halved to the edge.
    [[nodiscard]] std::optional<Squeeze> least(int axis, int way) {
        constexpr std::array<double, 8> steps{0.05, 0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1};
        const auto factorOf = [&](double share) { return std::pow(squeezeMost, way * share); };
        double bad = 0, good = 0; // shares of the most
        std::optional<Held> size;
        for (const double step : steps) {
            if (size || m_job.stopped()) break;
            bad = good;
            good = step;
            size = holdsAt(axis, factorOf(good));
        }
        if (!size) return std::nullopt;
        while (std::abs(factorOf(good) - factorOf(bad)) > squeezeStep && !m_job.stopped()) {
            const double middle = (good + bad) / 2;
            if (const auto there = holdsAt(axis, factorOf(middle))) {
                good = middle;
                size = there;
            } else {
                bad = middle;
            }
        }
        return Squeeze{axis, factorOf(good), size->size * (1 - 1 / factorOf(good)), m_scale,
                       std::move(size->but)};
    }

    /// What holds is worth: the body's size along the axis, and what is worth having and does not hold.
    struct Held {
        double size = 0;
        std::vector<std::string> but;
    };

    [[nodiscard]] static std::set<std::string> stopsOf(const Evaluation& e) {
        std::set<std::string> out;
        for (const Finding& f : e.findings)
            if (f.severity == Severity::stop) out.insert(f.code);
        return out;
    }

    /// With so much of it along one axis: does all hold that must, and does no new stop come of it?
    [[nodiscard]] std::optional<Held> holdsAt(int axis, double factor) {
        const auto project = stretched(m_project, m_made, along(axis, factor));
        if (!project) return std::nullopt;
        const Evaluation e = m_evaluator.evaluate(*project, Effort::windy, 0, m_job);
        if (m_job.stopped() || !e.fit || e.plates->plates.empty()) return std::nullopt;
        SurveySample sample;
        sample.told = marginsOf(e);
        if (sample.state() != FitState::fits) return std::nullopt;
        const std::set<std::string> stops = stopsOf(e);
        if (!std::includes(m_stops.begin(), m_stops.end(), stops.begin(), stops.end())) return std::nullopt;
        Held held{e.body->bounds.size()[axis], {}};
        for (const ToldMargin& t : sample.told)
            if (!t.of.must && t.of.key != "sheet" && !holds(t.margin))
                held.but.push_back(failWords(t.of, t.margin));
        return held;
    }

    Project m_project;
    double m_scale;
    const Job& m_job;
    std::set<std::string> m_stops; ///< codes of what stops it as it is
    Evaluator m_evaluator;
    Evaluation m_made;
};

Text scaleText(double scale) {
    return printExact(std::round(scale * 1e4) / 1e4, Unit::none);
}

} // namespace

double roundedOff(double factor) {
    const double tenths = (factor - 1) * 1000;
    return 1 + (factor > 1 ? std::ceil(tenths - 1e-9) : std::floor(tenths + 1e-9)) / 1000;
}

Expected<std::vector<Squeeze>> squeezes(const Project& project, double scale, const Job& job) {
    Trier body(project, scale, job);
    std::vector<Squeeze> out;
    if (!body.anybody()) return out;
    for (int axis = 0; axis < 3; ++axis)
        if (const auto sound = body.check(axis); !sound) return tl::make_unexpected(sound.error());
    for (int axis = 0; axis < 3 && !job.stopped(); ++axis)
        if (const auto found = body.least(axis)) out.push_back(*found);
    std::stable_sort(out.begin(), out.end(), [](const Squeeze& a, const Squeeze& b) {
        return std::abs(std::log(a.factor)) < std::abs(std::log(b.factor));
    });
    return out;
}

Edit takeAdvice(const Evaluation& made, const Squeeze& advice) {
    Vec3 by = Vec3::Ones();
    by[advice.axis] = roundedOff(advice.factor);
    return stretchSubject(made, by, scaleText(advice.scale));
}

std::vector<std::string> squeezeWords(const std::vector<Squeeze>& found, const std::vector<double>& scales,
                                      const UnitStyle& units) {
    if (found.empty()) {
        std::string list;
        for (std::size_t i = 0; i < scales.size(); ++i)
            list += (i == 0 ? "" : i + 1 == scales.size() ? " or " : ", ") + scaleText(scales[i]);
        return {
            "No one direction alone, up to a quarter more or a fifth less of it, makes everything hold at " +
            list + " either."};
    }
    constexpr std::array<const char*, 3> more{"Longer", "Wider", "Higher"},
        less{"Shorter", "Narrower", "Lower"};
    std::vector<std::string> out;
    for (const Squeeze& s : found) {
        const auto axis = static_cast<std::size_t>(s.axis);
        const double percent = std::round(std::abs(roundedOff(s.factor) - 1) * 1000) / 10;
        std::string line = std::string(s.factor > 1 ? more[axis] : less[axis]) + " alone by " +
                           printExact(percent, Unit::none) + " % (" + printFine(std::abs(s.more), units) +
                           ") at " + scaleText(s.scale);
        line += s.but.empty() ? ", everything would hold." : ", all that must would hold; but ";
        for (std::size_t i = 0; i < s.but.size(); ++i)
            line += (i == 0 ? "" : i + 1 == s.but.size() ? " and " : ", ") + s.but[i];
        out.push_back(s.but.empty() ? line : line + ".");
    }
    return out;
}

} // namespace slab
