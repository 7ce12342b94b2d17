#pragma once
// Extremes of several figures along a way, refined until they stay.
#include "core/base/error.h"
#include "core/geometry/golden_section.h"
#include <cmath>
#include <functional>
#include <limits>
#include <vector>

namespace slab::route {

struct SweptLeast {
    std::vector<double> value, at; ///< least of each figure, and where
    int steps = 0;
    double change = 0; ///< greatest that the last doubling made
};

/// `figures(x)` gives as many numbers at each x, in mm. Even steps are doubled, and each figure's least
/// refined about its best step, until twice running none changes by more than `tolerance`, or at 2^15 steps.
/// @error what `figures` fails with
template <class F>
[[nodiscard]] Expected<SweptLeast> sweptLeast(const F& figures, double from, double to, double tolerance) {
    SweptLeast out;
    Expected<void> sound;
    const auto keep = [&](double x) -> std::vector<double> {
        auto now = figures(x);
        if (!now) {
            sound = tl::unexpected(now.error());
            return {};
        }
        out.value.resize(now->size(), std::numeric_limits<double>::infinity());
        out.at.resize(now->size(), from);
        for (std::size_t k = 0; k < now->size(); ++k)
            if ((*now)[k] < out.value[k]) out.value[k] = (*now)[k], out.at[k] = x;
        return std::move(*now);
    };
    std::vector<double> last;
    int calm = 0;
    for (out.steps = 64; calm < 2; out.steps *= 2) {
        const double step = (to - from) / out.steps;
        for (int i = 0; i <= out.steps && sound; ++i)
            if (last.empty() || i % 2) (void)keep(from + i * step);
        for (std::size_t k = 0; k < out.value.size() && sound; ++k) {
            const auto one = [&](double x) {
                const auto now = keep(std::clamp(x, std::min(from, to), std::max(from, to)));
                return sound ? now[k] : 0;
            };
            const double at = out.at[k], wide = std::abs(step);
            (void)leastBetween(one, at - wide, at + wide,
                               std::max(1e-3 * tolerance, 1e-9 * std::abs(to - from)));
        }
        if (!sound) return tl::unexpected(sound.error());
        out.change = last.empty() ? std::numeric_limits<double>::infinity() : 0;
        for (std::size_t k = 0; k < last.size(); ++k)
            if (last[k] != out.value[k]) out.change = std::max(out.change, std::abs(last[k] - out.value[k]));
        calm = out.change <= tolerance ? calm + 1 : 0;
        last = out.value;
        if (out.steps >= 1 << 15) break;
        if (calm == 2) break;
    }
    return out;
}

} // namespace slab::route
