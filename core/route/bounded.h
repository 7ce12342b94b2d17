#pragma once
// The least of a function that changes no faster than it may.
#include <algorithm>
#include <limits>
#include <queue>
#include <vector>

namespace slab::route {

struct ProvedLeast {
    double value = 0; ///< least that was met
    double at = 0;
    double slack = 0; ///< the true least is at most this much below
};

/// Branch and bound: intervals are halved, the most promising first, until none can hold a value that is more
/// than `tolerance` lower, or after `most` of them (then `slack` tells).
/// @param rate    |f(x) − f(y)| ≤ rate |x − y|
/// @param enough  ends as soon as a value no greater than this is met
/// @source  S. A. Piyavskii (1972), an algorithm for finding the absolute extremum of a function
template <class F>
[[nodiscard]] ProvedLeast provedLeast(const F& f, double low, double high, double rate, double tolerance,
                                      double enough = -std::numeric_limits<double>::infinity(),
                                      std::size_t most = 2000000) {
    struct Part {
        double bound, middle, half;
        bool operator<(const Part& other) const { return bound > other.bound; }
    };
    ProvedLeast best{f(low), low, 0};
    const auto meet = [&](double x) {
        const double value = f(x);
        if (value < best.value) best = {value, x, 0};
        return value;
    };
    (void)meet(high);
    std::priority_queue<Part> parts;
    const auto add = [&](double middle, double half) {
        parts.push({meet(middle) - rate * half, middle, half});
    };
    add((low + high) / 2, (high - low) / 2);
    const auto goesOn = [&] { return best.value > enough && best.value - parts.top().bound > tolerance; };
    for (std::size_t done = 0; goesOn() && done < most; ++done) {
        const Part part = parts.top();
        parts.pop();
        add(part.middle - part.half / 2, part.half / 2);
        add(part.middle + part.half / 2, part.half / 2);
    }
    best.slack = std::max(0.0, best.value - parts.top().bound);
    return best;
}

} // namespace slab::route
