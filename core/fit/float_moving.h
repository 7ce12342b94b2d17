#pragma once
// A floating shell with all that moves on it: every pose of the shell with the whole range of every
// mechanism.
#include "core/fit/floating.h"
#include "core/fit/moving.h"

namespace slab {

/// One travel of one linkage that can be made less.
struct FloatTravel {
    std::string linkage;
    enum class Way { up, down, noseUp, noseDown };
    Way way = Way::down;
    double now = 0; ///< mm or radians
};

/// What is looked at in every pose.
struct FloatField {
    const FitResult& rest; ///< with the shell at rest, mechanisms swept: withSwept()
    const std::vector<FitSolid>& solids;
    const PlateSet& plates; ///< as shown, round forms among them
    const PlateSet& cut;    ///< every move at 0
    const MechanismSet& set;
    const std::vector<std::string>& linkages; ///< names, for the findings
    UnitStyle units = fitUnits;
    std::vector<FloatTravel> travels; ///< that may be made less
    /// Poses with one travel made `least` (mm or radians).
    std::function<std::vector<FloatPose>(const FloatTravel& travel, double least)> tried;
};

/// The fit of plates as shown with what mechanisms move over their range, and what is bought, in every pose.
/// Findings are told again, each with the greatest travel of one linkage that leaves its solid free in all
/// poses, where there is one: found by bisection, in steps as it is printed.
/// @param shown  floatFit() of the same
[[nodiscard]] FloatFit floatAll(FloatFit shown, const FloatField& field, const Job& job = {});

} // namespace slab
