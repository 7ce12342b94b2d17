#pragma once
#include "core/plates/shell.h"

namespace slab::plates {

/// What of the cells lies inside the skin: in thin bodies a zone would stick out through another face.
[[nodiscard]] Cells insideSkin(Shell& shell, Cells cells, int ownFace);
/// Even-odd test along a slanted ray.
[[nodiscard]] bool insideSkin(const Shell& shell, const Vec3& point);

} // namespace slab::plates
