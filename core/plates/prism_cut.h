#pragma once
// Taking a convex prism out of a convex cell.
#include "core/plates/cell.h"

namespace slab::plates {

/// A convex prism along `direction`; without ends unless `ends` are given.
struct Prism {
    std::vector<Half> sides;   ///< counter-clockwise, seen against the direction
    std::vector<Vec3> corners; ///< one on the edge before each side, mm
    Vec3 direction = Vec3::UnitZ();
    std::vector<Half> ends;
    [[nodiscard]] std::vector<Half> halves() const; ///< sides, then ends
};

/// Cell minus prism: what `subtract()` of all half-spaces gives, in fewer steps where the prism has many
/// sides. Appends to `out`. @return the volume taken away, mm³; 0 if they do not meet (the cell is then kept
/// whole)
double subtract(const PlaneTable& planes, const Cell& cell, const Prism& prism, Cells& out);

} // namespace slab::plates
