#pragma once
// The plates that a turntable's rings lie on and its drum goes through.
#include "core/mechanisms/turntable.h"

namespace slab::mechanisms {

/// Plates that its opening goes through.
[[nodiscard]] std::vector<CrossedPlate> deckPlates(const MechanismInput& in, const TurntableFigures& t);
/// The plate under the seat ring; null when there is none.
[[nodiscard]] const CrossedPlate* seatPlate(const TurntableFigures& t,
                                            const std::vector<CrossedPlate>& crossed);
/// A deck that its opening takes wholly holds no ring. @return false after a finding
bool checkDeckLeft(Reading& read, const TurntableFigures& t, const CrossedPlate* seat);
/// The plate under the seat must be level with the axis's foot and square to it.
void checkSeat(Reading& read, const TurntableFigures& t, const CrossedPlate* seat);
/// Rings that stand over the deck's edge: how far, and how many of `screws` miss it.
void checkOverhang(const MechanismInput& in, Reading& read, const TurntableFigures& t,
                   const CrossedPlate* seat);
/// Other plates that the drum goes through: they are cut too.
void tellCutBelow(Reading& read, const TurntableFigures& t, const std::vector<CrossedPlate>& crossed,
                  const CrossedPlate* seat);

} // namespace slab::mechanisms
