#pragma once
// Round forms in the fit: pipes, stacks and drums that are no plates and still stand in the rider's way.
#include "core/body/skin.h"
#include "core/plates/plate.h"

namespace slab {

/// The plates, without their outlines, with one more for each round form, named as the form: its cells are an
/// exact cylinder, the hull of a cone (its rims in 64 facets round them), or, of a tube whose bore is wide
/// enough to sit or reach into, staves round the bore. For distances and boxes only: such a plate has no
/// panel.
/// @param body  its rounds; those without a length are left out
[[nodiscard]] PlateSet withRounds(const PlateSet& made, const Body& body);

/// Whether a plate of such a set stands for a round form.
[[nodiscard]] bool standsForRound(const Plate& plate);
/// As findings point at it: "plate:hull/port", "form:stack".
[[nodiscard]] std::string subjectOf(const Plate& plate);

} // namespace slab
