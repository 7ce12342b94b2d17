#pragma once
#include "core/base/job.h"
#include <chrono>
#include <limits>

namespace slab::nesting {

/// How long a search may go on: so many steps, or until a moment.
class Budget {
public:
    using Clock = std::chrono::steady_clock;
    /// @param seconds  of wall clock, counted only when steps < 0
    Budget(double seconds, long steps, const Job& job) : m_job(job), m_seconds(seconds), m_steps(steps) {}
    void spend() { ++m_spent; }
    [[nodiscard]] bool over() const { return fraction() >= 1 || m_job.stopped(); }
    /// Share used up, in [0, 1] or a little more.
    [[nodiscard]] double fraction() const {
        if (m_steps >= 0)
            return m_steps == 0 ? 1 : static_cast<double>(m_spent) / static_cast<double>(m_steps);
        return std::chrono::duration<double>(Clock::now() - m_start).count() / m_seconds;
    }
    [[nodiscard]] const Job& job() const { return m_job; }

private:
    const Job& m_job;
    Clock::time_point m_start = Clock::now();
    double m_seconds;
    long m_steps, m_spent = 0;
};

} // namespace slab::nesting
