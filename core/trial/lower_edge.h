#pragma once
// The lower edge of many chains together: what can come near the ground first.
#include "core/geometry/polygon.h"

namespace slab::trial {

/// A chain from rear to front, and whose it is.
struct OwnedChain {
    Ring points;
    std::size_t owner = 0;
};
/// Wherever several lie over each other the lowest stays; what is upright keeps its lower end. Chains come
/// back from rear to front, cut where the owner changes. Something that lies above another point of the
/// vehicle can meet the ground first only on ground steeper than the vehicle is pitched from upright.
/// @param chains  x never falling along each
[[nodiscard]] std::vector<OwnedChain> lowerEdge(const std::vector<OwnedChain>& chains);

} // namespace slab::trial
