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

struct MadePlate;

/// Every plate form with a material. It keeps what Built::planes points to.
class FreePlates {
public:
    FreePlates(const Body& body, const PlateRules& rules);
    ~FreePlates();
    [[nodiscard]] std::size_t size() const;
    /// Cuts one out by itself, with square edges; each may be on a thread of its own.
    void cutOut(std::size_t index);
    /// Adds them to the plates of the skins. Where an edge is drawn on a face of a plate that is already in
    /// `set` or of another plate form (within 0.5 mm) it is cut to that face and gets the role `rests`: a
    /// T-joint.
    void standOn(PlateSet& set, FreeCount& count, std::vector<Built>& built);

private:
    const Body& m_body;
    const PlateRules& m_rules;
    std::vector<MadePlate> m_all;
    std::vector<Finding> m_findings;
};

/// Common volume of plates of different groups; each is an entry in `overlaps` and a finding.
void checkOverlaps(const std::vector<Built>& built, PlateSet& set, const Job& job);

} // namespace slab::plates
