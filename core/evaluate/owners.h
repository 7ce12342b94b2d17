#pragma once
// Whose part a part is, so that findings speak of the mechanism or frame and not of a plate or an opening.
#include "core/body/checks.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// Of all mechanisms and frames, off or not.
[[nodiscard]] PartOwners partOwners(const Project& project);

/// What a mechanism or a round form cuts is no opening of the document: findings about it name its owner,
/// point there, and tell what to do with that.
[[nodiscard]] std::vector<Finding> inOwnersWords(std::vector<Finding> found, const Project& project);

/// The fit's findings without those that a sweep tells too: of a part that moves, its whole range is told.
[[nodiscard]] std::vector<Finding> toldOnce(std::vector<Finding> fit, const std::vector<Finding>& swept);

} // namespace slab
