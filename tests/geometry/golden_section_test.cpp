// The least of a function of one number against closed forms.
#include "core/geometry/golden_section.h"
#include "seed.h"
#include <cmath>
#include <gtest/gtest.h>

namespace slab {
namespace {

TEST(GoldenSection, FindsTheBottomOfAParabolaAndItsCostIsTheTextbooks) {
    auto random = seeded(71);
    for (int i = 0; i < 200; ++i) {
        const double bottom = uniform(random, -5, 5), value = uniform(random, -2, 2);
        int calls = 0;
        const auto f = [&](double x) {
            ++calls;
            return value + (x - bottom) * (x - bottom);
        };
        EXPECT_NEAR(leastBetween(f, -6, 6, 1e-9), value, 1e-15);
        // Each step keeps 0.618… of the stretch and costs one call (Kiefer 1953); two begin.
        EXPECT_EQ(calls, 2 + static_cast<int>(std::ceil(std::log(12 / 1e-9) / std::log(1.6180339887498949))));
    }
}

TEST(GoldenSection, GivesTheEndWhereTheFunctionOnlyFalls) {
    EXPECT_NEAR(leastBetween([](double x) { return -x; }, 0, 1, 1e-9), -1, 1e-9);
    EXPECT_NEAR(leastBetween([](double x) { return x; }, 0, 1, 1e-9), 0, 1e-9);
}

} // namespace
} // namespace slab
