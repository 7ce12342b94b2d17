#pragma once
#include "core/document/project.h"

namespace slab {

/// A field below a form ("outline/3/half_width") as the builder names it: "point stem, half width"; what
/// stands in no list keeps its words ("base_z" → "base z").
[[nodiscard]] std::string placeWords(const Form& form, const std::string& field);

} // namespace slab
