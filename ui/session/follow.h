#pragma once
// What stays chosen while the body under it changes.
#include "core/plates/plate.h"

namespace slab::ui {

/// The edge of `plate` in `after` that is the chosen one of `before`: it meets the same neighbour, and lies
/// nearest to the same place of the outline. The outlines may have other numbers of edges.
/// @return -1 if the plate is gone or meets that neighbour no longer
[[nodiscard]] int followedEdge(const PlateSet& before, const PlateSet& after, const std::string& plate,
                               int edge);

/// Is a plate's form the chosen one? A mirrored form is chosen in its table for both of its hands.
[[nodiscard]] bool isOfForm(const std::string& plateForm, const std::string& chosen);

} // namespace slab::ui
