#include "core/survey/squeeze.h"
#include "core/survey/sampler.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

namespace {

/// The document stretched and looked at as the survey does.
class Trier {
public:
    Trier(const Project& project, double scale, const Job& job) : m_project(project), m_job(job) {
        m_project.scale = printExact(scale, Unit::none);
        m_made = m_evaluator.evaluate(m_project, Effort::fitOnly, 0, job);
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
        std::optional<double> size;
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
        return Squeeze{axis, factorOf(good), *size * (1 - 1 / factorOf(good))};
    }

    /// Does all hold with so much of it along one axis? Its size along that axis, if so.
    [[nodiscard]] std::optional<double> holdsAt(int axis, double factor) {
        const auto project = stretched(m_project, m_made, along(axis, factor));
        if (!project) return std::nullopt;
        const Evaluation e = m_evaluator.evaluate(*project, Effort::survey, 0, m_job);
        if (m_job.stopped() || !e.fit || e.plates->plates.empty()) return std::nullopt;
        SurveySample sample;
        sample.told = marginsOf(e);
        if (sample.state() != FitState::fits) return std::nullopt;
        return e.body->bounds.size()[axis];
    }

    Project m_project;
    const Job& m_job;
    Evaluator m_evaluator;
    Evaluation m_made;
};

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

Edit takeAdvice(const Evaluation& made, const Squeeze& advice, double scale) {
    Vec3 by = Vec3::Ones();
    by[advice.axis] = roundedOff(advice.factor);
    return stretchSubject(made, by, printExact(std::round(scale * 1e4) / 1e4, Unit::none));
}

std::vector<std::string> squeezeWords(const std::vector<Squeeze>& found, double scale,
                                      const UnitStyle& units) {
    const std::string at = printExact(std::round(scale * 1e4) / 1e4, Unit::none);
    if (found.empty())
        return {
            "No one direction alone, up to a quarter more or a fifth less of it, makes everything hold at " +
            at + " either."};
    constexpr std::array<const char*, 3> more{"Longer", "Wider", "Higher"},
        less{"Shorter", "Narrower", "Lower"};
    std::vector<std::string> out;
    for (const Squeeze& s : found) {
        const auto axis = static_cast<std::size_t>(s.axis);
        const double percent = std::round(std::abs(roundedOff(s.factor) - 1) * 1000) / 10;
        out.push_back(std::string(s.factor > 1 ? more[axis] : less[axis]) + " alone by " +
                      printExact(percent, Unit::none) + " % (" + printFine(std::abs(s.more), units) +
                      ") at " + at + ", everything would hold.");
    }
    return out;
}

} // namespace slab
