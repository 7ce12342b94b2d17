#pragma once
// Which opening made a wall.
#include "core/geometry/vec.h"
#include <map>
#include <string>
#include <vector>

namespace slab::plates {

/// One side wall of an opening: the strip from the segment along a direction. Walls of several openings may
/// lie in one plane: two alike at one height share their upper and lower ones.
struct Wall {
    std::string opening;
    Vec3 from, to, along; ///< along: unit vector
};
using Walls = std::map<int, std::vector<Wall>>; ///< by plane
/// The opening whose wall in that plane is nearest to the point; null for a plane that is no wall.
[[nodiscard]] const std::string* openingAt(const Walls& walls, int plane, const Vec3& point);

} // namespace slab::plates
