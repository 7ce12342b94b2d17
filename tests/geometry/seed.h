#pragma once
#include <cstdlib>
#include <gtest/gtest.h>
#include <random>

namespace slab {

/// Seed from SLABSIDE_SEED, or `usual`; printed when the test fails.
inline std::uint64_t testSeed(std::uint64_t usual = 1) {
    const char* given = std::getenv("SLABSIDE_SEED");
    const std::uint64_t seed = given ? std::strtoull(given, nullptr, 10) : usual;
    ::testing::Test::RecordProperty("seed", std::to_string(seed));
    std::printf("seed %llu\n", static_cast<unsigned long long>(seed));
    return seed;
}
inline std::mt19937_64 seeded(std::uint64_t usual = 1) {
    return std::mt19937_64(testSeed(usual));
}

/// Uniform in [from, to); the same on every platform (std::uniform_real_distribution is not).
inline double uniform(std::mt19937_64& random, double from, double to) {
    return from + (to - from) * (static_cast<double>(random() >> 11U) * 0x1p-53);
}
inline int below(std::mt19937_64& random, int count) {
    return static_cast<int>(random() % static_cast<std::uint64_t>(count));
}

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
inline constexpr int slowdown = 8; ///< rounds of random tests are divided by this
#else
inline constexpr int slowdown = 1;
#endif

} // namespace slab
