#pragma once
#include "core/body/skin.h"

namespace slab {

/// Planes of different forms within 0.05° and 0.2 mm of each other over their common extent become one plane:
/// the first form's in document order. The later form's corners are met again from its planes. Looks at
/// planes that face the same way (flush sides) and opposite ways (one form standing on another).
///
/// Each form that moves gives a note "planes-snapped"; planes that cannot be made one without bending the
/// form give "planes-near".
void snapPlanes(std::vector<FormSolid>& solids, std::vector<Finding>& findings, const UnitStyle& units = {});

} // namespace slab
