#pragma once
#include <functional>
#include <stop_token>

namespace slab {

/// Handle of a function that works over time: it asks `stopped()` often and reports progress in [0, 1].
struct Job {
    std::stop_token stop;
    std::function<void(double)> progress; ///< may be empty; called from the working thread
    [[nodiscard]] bool stopped() const { return stop.stop_requested(); }
    void report(double fraction) const {
        if (progress) progress(fraction);
    }
};

} // namespace slab
