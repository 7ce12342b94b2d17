#pragma once
// Single plates between two flat outlines: lids, lap strips, butt strips.
#include "core/plates/plate.h"

namespace slab::plates {

struct Loft {
    std::string name, form, stock;
    double thickness = 0; ///< mm
    Frame frame;          ///< the outlines' coordinates to the body; w out of it
    Polygon outer, inner; ///< on w = 0 and w = -thickness, corner for corner; inner empty = like the outer
};
/// The plate with its solid, cells, edges (free, with their tilts) and a frame of its own that begins at the
/// lower left of its outline.
/// @return nothing if an outline crosses itself, has no area, or the two do not match corner for corner
[[nodiscard]] std::optional<Plate> loftedPlate(const Loft& loft);

} // namespace slab::plates
