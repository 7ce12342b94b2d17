#pragma once
// Directions in the builder's words.
#include "core/geometry/vec.h"
#include <string>

namespace slab {

/// "above", "the front", "port", "starboard", "the back", "below"; what is more than 0.5° off one of them
/// says how far and where to: "above, leaning 17.2° to the front".
[[nodiscard]] std::string sideWords(const Vec3& direction);

} // namespace slab
