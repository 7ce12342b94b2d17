#pragma once
// Directions and boards in the builder's words.
#include "core/geometry/vec.h"
#include <string>

namespace slab {

/// Where something comes from: "above", "the front", "port", "starboard", "the back", "below". What is 0.5°
/// or more off that says how far and where to: "above (leaning 17.2° to the front)".
[[nodiscard]] std::string sideWords(const Vec3& direction);
/// Where something looks: "up", "to the front", "to port (leaning 5.0° upward)".
[[nodiscard]] std::string facingWords(const Vec3& direction);

/// Name of a frame's board less what all have in common: "rib#2" of "frames/rib#2".
[[nodiscard]] std::string shortBoard(const std::string& board);

} // namespace slab
