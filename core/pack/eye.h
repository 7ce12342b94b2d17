#pragma once
// From where boards are drawn so that each of them shows area.
#include "core/geometry/vec.h"
#include <vector>

namespace slab {

/// A parallel view: a point of the body as right and up on the picture.
struct Eye {
    Vec3 to = Vec3::UnitX(); ///< towards the eye, unit length
    Vec3 right = Vec3::UnitY(), up = Vec3::UnitZ();
    [[nodiscard]] Vec2 seen(const Vec3& p) const { return {p.dot(right), p.dot(up)}; }
};

/// From the port bow and above, the body's front at the lower left, turned as little as is needed to see no
/// board nearly edge-on: the cosine between the line of sight and a board's normal is at least 0.25 where any
/// such view has that, else the least of them is as large as it can be.
///
/// @param normals  of the boards, unit length
[[nodiscard]] Eye eyeFor(const std::vector<Vec3>& normals);

} // namespace slab
