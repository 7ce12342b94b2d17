#pragma once
// The least of a function of one number.
#include <algorithm>
#include <numbers>

namespace slab {

/// The least value met while [low, high] shrinks to `width`, at one place where f has no other valley in
/// between; else at one of its valleys. f is called about 2.08 ln((high - low) / width) times.
/// @source  J. Kiefer (1953), Sequential minimax search for a maximum
template <class F>
[[nodiscard]] double leastBetween(const F& f, double low, double high, double width) {
    constexpr double share = std::numbers::phi - 1;
    double x = high - share * (high - low), y = low + share * (high - low);
    double fx = f(x), fy = f(y);
    while (high - low > width) {
        if (fx < fy) {
            high = y;
            y = x;
            fy = fx;
            x = high - share * (high - low);
            fx = f(x);
        } else {
            low = x;
            x = y;
            fx = fy;
            y = low + share * (high - low);
            fy = f(y);
        }
    }
    return std::min(fx, fy);
}

} // namespace slab
