#pragma once
// What is bought or found and has a body of its own: a drum, a tube with its weights, wheels, a round form.
#include "core/body/skin.h"
#include "core/geometry/convex.h"

namespace slab {

/// One such part, body axes.
struct BoughtPart {
    std::string owner;               ///< mechanism or form that it belongs to
    std::string name;                ///< "monitor/tube"
    std::string on;                  ///< mechanism that carries its owner; empty = none
    std::vector<ConvexSolid> pieces; ///< cylinders and hulls without a radius; a weight is one point
    std::optional<double> mass;      ///< kg; nothing = the document does not tell it
    Vec3 centre = Vec3::Zero();      ///< of its mass
    int motion = -1;                 ///< index in MechanismSet::motions; -1 = does not move
    bool operator==(const BoughtPart&) const = default;
};
/// A round form: an exact cylinder, or the hull of a cone's rims in 64 facets round them.
[[nodiscard]] ConvexSolid shapeOf(const RoundPart& round);
/// All round in one material.
[[nodiscard]] BoughtPart boughtCylinder(const std::string& owner, const std::string& part,
                                        const ConvexSolid& cylinder);
/// Exact box of all its pieces.
[[nodiscard]] Box3 bounds(const BoughtPart& part);
/// Corners of a hull that holds it: rims of cylinders in 64 facets round them, at most 0.13 % outside.
/// @source  the corners of n facets round a circle of radius r lie r / cos(pi / n) from its middle
[[nodiscard]] std::vector<Vec3> cornersRound(const BoughtPart& part);

} // namespace slab
