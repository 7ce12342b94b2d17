#pragma once
// Strips behind the edge of an opening.
#include "core/plates/plate.h"
#include "core/plates/sheet_room.h"

namespace slab::plates {

struct LapRules {
    double width = 0; ///< mm, half of it behind the plate
    std::string stock;
    double thickness = 0;
    std::string opening;
};
struct LapStrip {
    Plate plate;
    std::vector<Ring> behind; ///< what it covers of the host's inside face, host's flat coordinates
};
[[nodiscard]] std::vector<LapStrip> lapStrips(const Plate& host, const PanelLoop& hole, const LapRules& rules,
                                              const PlateList& others, const SheetRoom& room,
                                              int* bare = nullptr);

/// The greatest match mark that is in use.
[[nodiscard]] int highestMark(const PlateSet& plates);
/// Adds part `i` of a list that counts its own match marks from 1: they go on behind `last`.
void addBehindMark(PlateSet& set, const PlateList& parts, std::size_t i, int last);

} // namespace slab::plates
