#pragma once
// Frames that stand behind an opening.
#include "core/frames/frames.h"

namespace slab {

/// "opening-barred": a board stands behind an opening through which somebody gets out or a hand goes in, or
/// that is seen through, and takes more than a twentieth of it. Looked at as far inside as each needs: 400 mm
/// behind a way out and what lifts off, 300 mm behind a slit, 120 mm behind a hand hole (common practice).
/// @param plates  with the frames' boards
[[nodiscard]] std::vector<Finding> barredFindings(const Project& project, const PlateList& plates,
                                                  const FrameSet& frames, const UnitStyle& units);

} // namespace slab
