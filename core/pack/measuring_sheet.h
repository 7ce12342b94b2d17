#pragma once
// The printed measuring sheet of a donor.
#include "core/donor/measuring.h"
#include "core/drawing/pen.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// What is to be measured on the document's donor: side view and plan with lettered lines, and a table with
/// the generic values and room for the readings; no pages where there is no such donor.
[[nodiscard]] Drawing measuringDrawing(const Project& project, const Evaluation& evaluation);

/// A donor seen from one side, with the measures that lie in that view.
struct MeasuringView {
    std::vector<FitSolid> solids; ///< in donor axes
    std::vector<Wheel> wheels;
    std::vector<DonorSize> sizes;
    std::vector<Measure> measures;
    bool plan = false; ///< from above, else from starboard: forward is to the right in both
};
/// Draws it as large as the area allows; lines beside and below it, each with its letter.
/// @return measures drawn
int drawMeasuringView(const Pen& pen, const Area& area, const MeasuringView& view);

} // namespace slab
