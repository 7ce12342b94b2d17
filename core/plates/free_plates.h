#pragma once
// Plate forms: single flat plates that are not part of a skin.
#include "core/plates/cell.h"
#include "core/plates/plate.h"

namespace slab::plates {

/// What was built, kept for the overlap check.
struct Built {
    std::size_t plate = 0; ///< index in PlateSet::plates
    int group = 0;         ///< plates of one closed skin cannot overlap
    const PlaneTable* planes = nullptr;
    Cells cells;
};

/// Counted on from plate to plate.
struct FreeCount {
    std::vector<int>& hits; ///< by opening and round form
    int& mark;              ///< the next match mark
};

/// Builds every plate form with a material. Where an edge is drawn on a face of a plate that is already in
/// `set` or of another plate form (within 0.5 mm) it is cut to that face and gets the role `rests`: a
/// T-joint.
/// @param tables  one for each plate form, filled here
void buildFreePlates(const Body& body, const PlateRules& rules, std::vector<PlaneTable>& tables,
                     FreeCount& count, PlateSet& set, std::vector<Built>& built);

/// Common volume of plates of different groups; each is an entry in `overlaps` and a finding.
void checkOverlaps(const std::vector<Built>& built, PlateSet& set, const Job& job);

} // namespace slab::plates
