#pragma once
// Published body sizes, one table each; mm, mass in kg.
#include <array>
#include <string>
#include <vector>

namespace slab {

inline constexpr std::array<double, 9> adultPercentiles = {1, 5, 10, 25, 50, 75, 90, 95, 99};
inline constexpr std::array<double, 3> childPercentiles = {5, 50, 95};

struct AdultRow {
    const char* dimension; ///< "sitting height"
    std::array<double, 9> female, male;
};
struct ChildRow {
    const char* sex;  ///< "both", "female", "male"
    int from, before; ///< age group, years: from <= age < before
    const char* dimension;
    std::array<double, 3> values;
};

[[nodiscard]] const std::vector<AdultRow>& adultRows();
[[nodiscard]] const std::vector<ChildRow>& childRows();

} // namespace slab
