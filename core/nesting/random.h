#pragma once
#include <cstddef>
#include <cstdint>

namespace slab::nesting {

/// Small generator with the same stream on every machine.
/// @source  G. Steele, D. Lea, C. Flood: Fast splittable pseudorandom number generators (OOPSLA 2014),
/// splitmix64
class Random {
public:
    explicit Random(std::uint64_t seed) : m_state(seed) {}
    [[nodiscard]] std::uint64_t next() {
        std::uint64_t z = (m_state += 0x9e3779b97f4a7c15ULL);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
        return z ^ (z >> 31U);
    }
    /// In [0, 1).
    [[nodiscard]] double unit() { return static_cast<double>(next() >> 11U) * 0x1p-53; }
    [[nodiscard]] double between(double from, double to) { return from + (to - from) * unit(); }
    [[nodiscard]] std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }

private:
    std::uint64_t m_state;
};

} // namespace slab::nesting
