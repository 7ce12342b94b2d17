#pragma once
// Boards that are made besides the skin's plates: frames, rings, strips, hatches.
#include "core/base/error.h"
#include "core/plates/plate.h"

namespace slab {

/// A flat board with square edges.
struct FlatPart {
    std::string name;  ///< of the plate: "frames/bulkhead"
    std::string form;  ///< what it belongs to, as a form does
    std::string stock; ///< sheet
    double thickness = 0;
    Frame frame;     ///< the outline's axes; the outside face is w = 0, the board grows towards -w
    Polygon outline; ///< u, v
    std::vector<std::string> holes{}; ///< name of the opening that each hole is; those without one are plain holes
};

/// The board as a plate like any other: outlines in a panel's frame, solid, convex cells, volume.
/// @error  "part-outline" if the outline has no area, crosses itself or the thickness is not above 0
[[nodiscard]] Expected<Plate> flatPart(const FlatPart& part);

} // namespace slab
