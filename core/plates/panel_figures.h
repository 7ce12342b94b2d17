#pragma once
#include "core/plates/plate.h"

namespace slab::plates {

/// Makes fingerprint and footprint from the outlines, folds, stock and thickness.
void setFigures(Panel& panel);

} // namespace slab::plates
