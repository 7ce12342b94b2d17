#include "core/survey/squeeze.h"
#include <algorithm>
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

    /// The least stretch along one axis that fits; nothing if the greatest does not.
    [[nodiscard]] std::optional<Squeeze> least(int axis) {
        auto size = fits(axis, squeezeMost);
        if (!size) return std::nullopt;
        double bad = 1, good = squeezeMost;
        while (good - bad > squeezeStep && !m_job.stopped()) {
            const double middle = (good + bad) / 2;
            if (const auto there = fits(axis, middle)) {
                good = middle;
                size = there;
            } else {
                bad = middle;
            }
        }
        return Squeeze{axis, good, *size * (1 - 1 / good)};
    }

private:
    [[nodiscard]] static Vec3 along(int axis, double factor) {
        Vec3 by = Vec3::Ones();
        by[axis] = factor;
        return by;
    }
    /// Does it fit so much larger along one axis? Its size along that axis, if so.
    [[nodiscard]] std::optional<double> fits(int axis, double factor) {
        const auto project = stretched(m_project, m_made, along(axis, factor));
        if (!project) return std::nullopt;
        const Evaluation e = m_evaluator.evaluate(*project, Effort::survey, 0, m_job);
        if (m_job.stopped() || !e.fit || e.plates->plates.empty() || e.fit->state != FitState::fits)
            return std::nullopt;
        return e.body->bounds.size()[axis];
    }

    Project m_project;
    const Job& m_job;
    Evaluator m_evaluator;
    Evaluation m_made;
};

} // namespace

double roundedUp(double factor) {
    return 1 + std::ceil((factor - 1) * 1000 - 1e-9) / 1000;
}

Expected<std::vector<Squeeze>> squeezes(const Project& project, double scale, const Job& job) {
    Trier body(project, scale, job);
    std::vector<Squeeze> out;
    if (!body.anybody()) return out;
    for (int axis = 0; axis < 3; ++axis)
        if (const auto sound = body.check(axis); !sound) return tl::make_unexpected(sound.error());
    for (int axis = 0; axis < 3 && !job.stopped(); ++axis)
        if (const auto found = body.least(axis)) out.push_back(*found);
    std::stable_sort(out.begin(), out.end(),
                     [](const Squeeze& a, const Squeeze& b) { return a.factor < b.factor; });
    return out;
}

Edit takeAdvice(const Evaluation& made, const Squeeze& advice, double scale) {
    Vec3 by = Vec3::Ones();
    by[advice.axis] = roundedUp(advice.factor);
    return stretchSubject(made, by, printExact(std::round(scale * 1e4) / 1e4, Unit::none));
}

std::vector<std::string> squeezeWords(const std::vector<Squeeze>& found, double scale,
                                      const UnitStyle& units) {
    const std::string at = printExact(std::round(scale * 1e4) / 1e4, Unit::none);
    if (found.empty())
        return {"Longer, wider or higher alone, by up to a quarter, the shell does not clear donor and rider "
                "at " +
                at + " either."};
    std::vector<std::string> out;
    for (const Squeeze& s : found) {
        const char* word = s.axis == 0 ? "Longer" : s.axis == 1 ? "Wider" : "Higher";
        const double percent = std::round((roundedUp(s.factor) - 1) * 1000) / 10;
        out.push_back(std::string(word) + " alone by " + printExact(percent, Unit::none) + " % (" +
                      printFine(s.more, units) + ") at " + at + ", the shell would clear donor and rider.");
    }
    return out;
}

} // namespace slab
