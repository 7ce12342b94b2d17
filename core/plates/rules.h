#pragma once
// What the builder chose for the plates, as figures.
#include "core/body/skin.h"

namespace slab {

/// Of one side of the body.
struct FaceChoice {
    std::string stock;    ///< empty = left out
    double thickness = 0; ///< mm; 0 = left out
    int rank = 0;
    bool operator==(const FaceChoice&) const = default;
};
struct ResolvedOpening {
    std::string name;
    std::string plate;               ///< host, or empty
    std::vector<std::string> plates; ///< patterns when directed
    Vec3 origin = Vec3::Zero();      ///< directed: a point on the axis; hosted: unused
    Vec3 direction = Vec3::Zero();   ///< unit, directed only
    Vec2 at = Vec2::Zero();          ///< hosted: u, v from the centre of the plate's outline
    Ring outline;                    ///< around (0, 0), counter-clockwise; circles as `circle` facets
    double circle = 0;               ///< diameter if it is a true circle, else 0
    bool parallelWalls = false;
    bool operator==(const ResolvedOpening&) const = default;
};
/// Meant for frames only, which are no plates of the shell: "frames/rib".
[[nodiscard]] bool isForFrames(const ResolvedOpening& opening);
struct PlateRules {
    std::vector<FaceChoice> faces;      ///< one per Body::skin.faces
    std::vector<FaceChoice> freePlates; ///< one per Body::plates
    JointKind fallback = JointKind::cover;
    std::vector<EdgeJoint> edges;
    std::vector<ResolvedOpening> openings;
    UnitStyle units; ///< for messages
    bool operator==(const PlateRules&) const = default;
};

} // namespace slab
