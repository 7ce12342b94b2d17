#pragma once
// Butt strips behind seams.
#include "core/plates/congruence.h"
#include "core/plates/seam_search.h"
#include "core/plates/seams.h"

namespace slab::plates {

/// What a strip is made of.
struct StripRules {
    double width = usualStrip; ///< mm
    std::string stock;
    double thickness = 0;
};
/// A plate among the copies of a panel, and how it lies on the panel.
struct CopyPlace {
    const Plate* plate = nullptr;
    Turn turn; ///< from the plate's own flat coordinates to the panel's
};
/// Each copy's plate; one that cannot be found has none.
[[nodiscard]] std::vector<CopyPlace> copyPlaces(const Panel& panel, const PlateSet& plates);

/// Where frames stand on the inside face of any copy, as corners in the panel's coordinates.
[[nodiscard]] std::vector<Ring> framesBehind(const Panel& panel, const PlateSet& plates);

/// A strip for one copy, with what it covers of the host's inside face in the panel's coordinates.
struct MadeStrip {
    Plate plate;
    std::size_t copy = 0;
    Polygon covers;
};
/// Strips along a seam on the inside of one copy: the seam's rectangle, cut to what is free there. Parts that
/// do not bridge the seam for at least half the strip's width are left out.
/// @param before  plates and strips that may stand in the way
[[nodiscard]] std::vector<MadeStrip> stripsBehind(const MadeCut& cut, const CopyPlace& place,
                                                  const StripRules& rules, const PlateList& before);

} // namespace slab::plates
