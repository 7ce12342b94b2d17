#pragma once
#include "core/body/skin.h"

namespace slab {

/// Edges shorter and faces narrower than 1 mm at build size: findings "sliver-edge", "sliver-face".
[[nodiscard]] std::vector<Finding> sliverFindings(const Skin& skin, const UnitStyle& units = {});

/// What reaches more than 0.5 mm under the ground (z = 0, where donor and rider stand): one finding
/// "below-ground", at the lowest place, look. Less is rounding.
[[nodiscard]] std::vector<Finding> groundFindings(const Body& body, const UnitStyle& units = {});

/// Of everything: skin, plate outlines (their outer face) and round parts.
[[nodiscard]] Box3 boundsOf(const Body& body);

} // namespace slab
