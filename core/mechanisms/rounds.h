#pragma once
// Round forms in fit and sweeps: pipes, stacks and drums that are no plates and still stand in the rider's
// way.
#include "core/body/skin.h"
#include "core/plates/plate.h"

namespace slab {

/// The plates, without their outlines, with one more for each round form, named as the form: its cells are an
/// exact cylinder, the hull of a cone (its rims in 64 facets round them), or, of a tube whose bore is wide
/// enough, staves round the bore. For distances and boxes only: such a plate has no panel.
/// @param rounds     those without a length are left out
/// @param leastBore  radius of a bore that counts as open, mm; the usual one is wide enough to sit or reach
/// into
[[nodiscard]] PlateSet withRounds(const PlateSet& made, const std::vector<RoundPart>& rounds,
                                  double leastBore = 100);

/// The round form that stands where a cylinder of a mechanism is; null if none.
/// @param off  how far it may lie beside it more than 1 mm, mm
[[nodiscard]] const RoundPart* formAt(const std::vector<RoundPart>& rounds, const ConvexSolid& cylinder,
                                      double off = 0);
/// Whether a plate of such a set stands for a round form.
[[nodiscard]] bool standsForRound(const Plate& plate);
/// As findings point at it: "plate:hull/port", "form:stack".
[[nodiscard]] std::string subjectOf(const Plate& plate);

} // namespace slab
