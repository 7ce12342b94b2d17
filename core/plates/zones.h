#pragma once
// Zones of faces of a skin that is not convex.
#include "core/plates/shell.h"

namespace slab::plates {

/// Zone of one face; `full`: not yet parted along bisectors and near-flat mitres. Kept.
[[nodiscard]] const Cells& fullZone(Shell& shell, int face);

/// Zone of a face of a skin that is not convex.
[[nodiscard]] Cells outlineZone(Shell& shell, int face, bool full);

} // namespace slab::plates
