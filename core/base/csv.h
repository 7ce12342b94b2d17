#pragma once
// Fields of comma-separated lists.
#include <string>

namespace slab {

/// A field as RFC 4180 section 2 wants it: quoted when it holds a comma, a quote or a line break.
[[nodiscard]] std::string csvField(const std::string& text);
/// So many decimals and a point, whatever the locale. Empty if there is no room for the digits (over 60).
[[nodiscard]] std::string csvNumber(double value, int decimals);

} // namespace slab
