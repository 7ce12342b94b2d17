#pragma once
#include "core/document/project.h"
#include "tests/geometry/seed.h"

namespace slab {

/// A sound document with every kind of form, unknown fields at every level and odd but allowed texts.
[[nodiscard]] Project randomProject(std::mt19937_64& random);

} // namespace slab
