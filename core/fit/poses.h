#pragma once
// The fit while the rider leans, lets go of the controls or steers: every pose of `DonorSet` against plates,
// round forms and what mechanisms move.
#include "core/fit/known_pairs.h"
#include "core/mechanisms/mechanisms.h"

namespace slab {

struct PosedSolid {
    FitSolid solid;
    std::string words; ///< of the first pose that has it
};
/// The solids of all poses, each shape of each once: a head that leans is where it is whatever the hands do.
[[nodiscard]] std::vector<PosedSolid> posedSolids(const std::vector<DonorPose>& poses);

/// What poses are compared with.
struct PoseField {
    const std::vector<FitSolid>& solids; ///< at rest
    const std::vector<PosedSolid>& posed;
    const PlateSet& plates; ///< as shown, round forms among them
    const FitWords& words;
};

/// The fit with its poses, live: state, least clearance and least margin are the worst of all, with a finding
/// for what is worse than at rest. What is too far away to matter is skipped by its box.
[[nodiscard]] FitResult withPoses(FitResult rest, const PoseField& field);
/// The verdict on those: the pairs that `live` found by OpenCASCADE, as in confirmedFit().
/// @param rest  the verdict at rest
[[nodiscard]] FitResult confirmedPoses(FitResult rest, const FitResult& live, const PoseField& field,
                                       KnownPairs& known, const Job& job = {});
/// The fit with its poses against what mechanisms move, over their whole range.
/// @param cut  plates with every move at 0
[[nodiscard]] FitResult withPosedMoving(FitResult fit, const PoseField& field, const MechanismSet& set,
                                        const PlateSet& cut, const Job& job = {});

} // namespace slab
