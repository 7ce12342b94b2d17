#pragma once
// Ready bodies to begin from.
#include "core/document/project.h"

namespace slab {

struct StartKind {
    std::string kind;  ///< "box", "boat", "cab", "tower", "capsule"
    std::string label; ///< "Box", "Boat", "Cab and bonnet", "Tower", "Capsule"
    std::string words; ///< one line for the builder
};
[[nodiscard]] const std::vector<StartKind>& startKinds();

/// A body of named dimensions, sized to fit round donor and rider at its scale, with a sheet of the trade, an
/// order of joints and an exit.
/// @param units  "mm", "cm", "m", "in", "ft"
/// @param donor  of donorKinds()
/// @error "unknown-start", "unknown-donor", "unknown-unit"
[[nodiscard]] Expected<Project> startProject(const std::string& kind, const std::string& units,
                                             const std::string& donor);
/// The same round the donor and rider of another document, with its clearances: the ones that were measured.
/// Dimensions that these need come along as "donor_…".
/// @error "unknown-start", "unknown-unit"
[[nodiscard]] Expected<Project> startProject(const std::string& kind, const std::string& units,
                                             const Project& like);

} // namespace slab
