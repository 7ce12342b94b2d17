#pragma once
// Hatches: what an opening cuts out comes back as a lid, and a lap strip behind the edge carries it.
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// What an opening is for, as figures.
struct OpeningUse {
    std::string opening;
    std::string purpose; ///< "", "exit", "sight_slit", "hand_hole", "wheel_arch", "light"
    bool lid = false;
    double gap = 2;       ///< all round the lid, mm
    double lap = 0;       ///< width of the lap strip, mm; 0 = none
    std::string lapStock; ///< empty = the plate's own
    double least = 0;     ///< least width of the opening, mm
    bool operator==(const OpeningUse&) const = default;
};

struct LidSet {
    PlateList plates; ///< lids ("hull/port/exit lid") and lap strips ("hull/port/exit lap")
    std::vector<Finding> findings;
    bool operator==(const LidSet&) const = default;
};

/// Adds the lids and lap strips of every opening that has one. The lid is the cut-out shrunk by the gap all
/// round, square to its walls, with their tilts. The lap strip lies on the inside, half of it behind the
/// plate and half behind the lid: straight strips with mitred ends along up to eight straight sides, else a
/// ring, cut crosswise where no sheet holds it whole. Where it lies is marked on the plate.
///
/// Gaps and openings between 5 and 12 mm catch fingers: a finding.
/// @param plates  gets the marks of the lap strips
/// @source  CEN/TR 13387:2004: gaps under 5 or over 12 mm
[[nodiscard]] LidSet makeLids(PlateSet& plates, const StockSet& stock, const std::vector<OpeningUse>& uses,
                              const UnitStyle& units = {});

/// What the document says of its openings; those without an outline in `rules` are passed over.
[[nodiscard]] std::vector<OpeningUse> resolveUses(const Project& project, const Scope& scope,
                                                  const PlateRules& rules, std::vector<Finding>& findings);

/// Ring with each side moved inward by its own distance, corners where neighbouring sides then meet; nothing
/// if a side is used up or the ring crosses itself. Counter-clockwise.
[[nodiscard]] std::optional<Ring> insetBySide(const Ring& ring, const std::vector<double>& by);

} // namespace slab
