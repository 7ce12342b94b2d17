#pragma once
// The fit while the shell floats on its chassis: donor and rider against the plates in every pose.
#include "core/fit/poses.h"
#include "core/mechanisms/float_range.h"

namespace slab {

struct FloatPair {
    FitPair pair;      ///< as in the pose where it is worst; points as seen from the shell at rest
    int pose = 0;      ///< index in the poses
    std::string words; ///< of that pose: "lowered 20 mm, nose up 3.0°"
    std::string posed; ///< of the rider then, also in `words`: "leaning left 15.0°"; empty at rest
    bool operator==(const FloatPair&) const = default;
};
struct FloatFit {
    /// For each solid the plates that come nearer than its clearance in some pose, and the nearest of all.
    std::vector<FloatPair> pairs;
    double leastClearance = 0, leastMargin = 0; ///< over all pairs, mm
    FitState state = FitState::fits;
    std::vector<Finding> findings; ///< of pairs that are worse afloat than at rest
    bool operator==(const FloatFit&) const = default;
};

/// Least clearance over all poses. The solids are moved against the plates, not the plates: a pose costs no
/// more than the fit at rest, and a solid that cannot come near in a pose is not looked at.
/// @param rest  the fit with the shell at rest
/// @param linkages  names, for the findings
/// @param posed     solids in poses of the rider: looked at as well, as far as they come nearer than wanted
/// or
///                  than everything at rest
[[nodiscard]] FloatFit floatFit(const FitResult& rest, const std::vector<FitSolid>& solids,
                                const PlateSet& plates, const std::vector<FloatPose>& poses,
                                const std::vector<std::string>& linkages, const UnitStyle& style = fitUnits,
                                const std::vector<PosedSolid>& posed = {});

/// The worse of the fit at rest and afloat, for searches.
[[nodiscard]] Probe probeOf(const FitResult& rest, const FloatFit& afloat);

} // namespace slab
