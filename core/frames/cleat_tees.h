#pragma once
// Plates and frames that stand with an edge on another plate's face, away from its edges.
#include "core/frames/cleat_seat.h"

namespace slab::cleats {

/// A plate form that stands on a face of another plate, or a frame on the inside face of one.
struct Tee {
    const Plate* host = nullptr;
    const Plate* standing = nullptr;
    bool inside = false; ///< on the host's inside face
    int mark = 0;        ///< match mark of the contact; 0 for a frame
};
/// All of them, by host, then by what stands there. A frame stands on a plate where it is built within
/// glueGap of its inside face.
[[nodiscard]] std::vector<Tee> teesOf(const PlateSet& set);
inline constexpr double glueGap = 2; ///< mm that thickened glue fills (common practice)

/// The corners on both sides of the plate that stands, one for each straight edge of either of its faces that
/// lies on the host's face within the gap.
/// @param swapped  the width lies on the plate that stands
[[nodiscard]] std::vector<Seat> seatsOf(const Tee& tee, bool swapped);

} // namespace slab::cleats
