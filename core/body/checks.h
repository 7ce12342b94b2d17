#pragma once
#include "core/body/skin.h"

namespace slab {

/// Edges shorter and faces narrower than 1 mm at build size: findings "sliver-edge", "sliver-face".
[[nodiscard]] std::vector<Finding> sliverFindings(const Skin& skin, const UnitStyle& units = {});

/// Of everything: skin, plate outlines (their outer face) and round parts.
[[nodiscard]] Box3 boundsOf(const Body& body);

} // namespace slab
