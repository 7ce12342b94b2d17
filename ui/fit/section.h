#pragma once
// Cutting a solid with a plane for the section view, on plain polyhedra.
#include "core/geometry/polyhedron.h"

namespace slab::ui {

/// The part of a closed solid on the inner side of `plane` (normal·x <= offset), closed again by faces named
/// "section".
///
/// Corners within 1e-9 mm of the plane count as kept, so that no cut runs along an edge and the pieces always
/// close: volume(kept) + volume(rest) = volume(solid). Faces with holes and faces that fall into several
/// pieces are handled. An empty polyhedron when nothing is left; the solid itself when nothing is cut.
[[nodiscard]] Polyhedron clipped(const Polyhedron& solid, const Plane& plane);

} // namespace slab::ui
