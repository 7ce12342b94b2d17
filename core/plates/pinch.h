#pragma once
#include "core/geometry/polyhedron.h"

namespace slab::plates {

/// Where a solid touches itself along an edge or at a corner, gives each side its own vertices (at the same
/// place), so that every edge has two faces. Faces are paired across an edge through the material between
/// them; an edge whose two sides hang together at both ends gets a vertex of its own in the middle of the
/// second side.
void partPinches(Polyhedron& solid);

} // namespace slab::plates
