#pragma once
// What people call the generic donors, and who rides and moves them.
#include <string>
#include <vector>

namespace slab {

/// "powered chair, mid-wheel drive"; the kind itself where it is unknown.
[[nodiscard]] std::string donorLabel(const std::string& kind);
/// Years of a child that such a donor is made for (common practice); 0 = for grown-ups.
[[nodiscard]] double usualAge(const std::string& kind);
/// Solids that keep room for who walks outside and moves it; a closed body is begun without them.
[[nodiscard]] std::vector<std::string> roomOutside(const std::string& kind);

} // namespace slab
