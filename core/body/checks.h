#pragma once
#include "core/body/skin.h"

namespace slab {

/// Edges shorter and faces narrower than 1 mm at build size: findings "sliver-edge", "sliver-face".
[[nodiscard]] std::vector<Finding> sliverFindings(const Skin& skin, const UnitStyle& units = {});

/// A part with its lowest place.
struct LowPart {
    std::string name, about;       ///< "hull/floor", "plate:hull/floor"
    std::string owner, ownerAbout; ///< what is to be lifted: "hull", "form:hull"
    Vec3 at = Vec3::Zero();
    double facing = 1;  ///< upward part of the normal: of parts equally low the one that looks down is told
    std::string when{}; ///< the pose in which it reaches there; empty = as shown
};
/// Of every plate, by its outer face, and every round form.
[[nodiscard]] std::vector<LowPart> lowestOf(const Body& body);
/// The lowest place of a cylinder or cone between two rims.
[[nodiscard]] Vec3 lowestOfRims(const Vec3& base, double radius, const Vec3& top, double topRadius);

/// What reaches more than 0.5 mm under the ground (z = 0, where donor and rider stand): one finding
/// "below-ground", at the lowest place, look. It names the lowest part of each form, mechanism or frame,
/// three at most, and counts the others; `about` has them all. Less is rounding.
[[nodiscard]] std::vector<Finding> groundFindings(std::vector<LowPart> parts, const UnitStyle& units = {});
[[nodiscard]] std::vector<Finding> groundFindings(const Body& body, const UnitStyle& units = {});

/// Of everything: skin, plate outlines (their outer face) and round parts.
[[nodiscard]] Box3 boundsOf(const Body& body);

} // namespace slab
