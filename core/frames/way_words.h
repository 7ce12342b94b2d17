#pragma once
// Directions in the builder's words.
#include "core/geometry/vec.h"
#include <string>

namespace slab {

/// Where something comes from: "above", "the front", "port", "starboard", "the back", "below". What is 0.5°
/// or more off that says how far and where to: "above (leaning 17.2° to the front)".
[[nodiscard]] std::string sideWords(const Vec3& direction);
/// Where something looks: "up", "to the front", "to port (leaning 5.0° upward)".
[[nodiscard]] std::string facingWords(const Vec3& direction);

} // namespace slab
