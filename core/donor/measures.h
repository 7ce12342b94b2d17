#pragma once
// The readings of the measuring sheet that the document holds.
#include "core/donor/measuring.h"
#include "core/donor/sizes.h"

namespace slab {

/// Puts the sizes that the document's readings determine into `sizes`. A reading is called by its name or its
/// letter. Findings: `measure-unknown`, `measure-residual` (the wrong one, and what it should read),
/// `measure-doubtful` (one of several), `measure-few`, `measure-size`.
void applyMeasures(const Donor& donor, const std::string& kind, Reading& reading, SizeValues& sizes);

} // namespace slab
