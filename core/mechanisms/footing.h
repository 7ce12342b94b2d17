#pragma once
// What something that stands upright stands on.
#include "core/mechanisms/mechanisms.h"
#include <functional>

namespace slab::mechanisms {

struct Footing {
    double below = 0;            ///< of the face under the point, mm
    std::string plate;           ///< that it is a face of
    Vec3 normal = Vec3::UnitZ(); ///< of that face, out of the plate
    bool operator==(const Footing&) const = default;
};
/// The highest upper face straight below a point, of plates that are built and that `may` takes: faces of the
/// skin, and either face of a plate form. Faces steeper than 60° are none.
/// @param up     unit
/// @param clear  faces less than this below the point are not looked at, mm
[[nodiscard]] std::optional<Footing> plateBelow(const MechanismInput& in, const Vec3& point, const Vec3& up,
                                                double clear,
                                                const std::function<bool(const std::string&)>& may);

/// Does a foot that lies across a round mouth rest on the ring round it with all its corners?
/// @param foot   corners as seen along the mouth's axis, from its middle, mm
/// @param mouth  radius of the opening, mm
[[nodiscard]] bool standsBesideMouth(const std::vector<Vec2>& foot, double mouth);

} // namespace slab::mechanisms
