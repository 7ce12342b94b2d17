#pragma once
// Whose part a part is, so that findings speak of the mechanism or frame and not of a plate or an opening.
#include "core/body/checks.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// Of all mechanisms and frames, off or not.
[[nodiscard]] PartOwners partOwners(const Project& project);

/// Lowest places of all that mechanisms and frames are made of, as shown. Of a belt's strips those of their
/// true curve, which their facets touch in the middle.
[[nodiscard]] std::vector<LowPart> lowestOf(const Evaluation& e, const PartOwners& owners);

/// What a mechanism or a round form cuts is no opening of the document: findings about it name its owner,
/// point there, and tell what to do with that.
[[nodiscard]] std::vector<Finding> inOwnersWords(std::vector<Finding> found, const Project& project);

} // namespace slab
