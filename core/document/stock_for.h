#pragma once
#include "core/document/project.h"

namespace slab {

/// Sheet that the document gives a plate name; empty = left out.
[[nodiscard]] std::string stockFor(const Materials& materials, const std::string& plate);

} // namespace slab
