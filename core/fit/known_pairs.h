#pragma once
// What OpenCASCADE said about pairs before, so that those that are as they were need no second look.
#include "core/fit/fit.h"
#include <map>

namespace slab {

/// What OpenCASCADE says about one pair.
struct PairVerdict {
    bool judged = false;
    double distance = 0, volume = 0; ///< mm, mm³
    Vec3 onSolid = Vec3::Zero(), onPlate = Vec3::Zero();
    std::string why; ///< when not judged
};

/// Verdicts of the last look with the shapes that they are about.
struct KnownPairs {
    struct Known {
        ConvexSolid solid;
        Polyhedron plate;
        std::vector<ConvexSolid> cells; ///< of a round form; none for a plate
        bool hits = false;              ///< seen live: the common volume was asked for
        PairVerdict verdict;
    };
    std::map<std::pair<std::string, std::string>, Known> pairs; ///< by the names of solid and plate
    std::size_t reused = 0;                                     ///< at the last look
};

/// confirmedFit() that takes over what is known of pairs whose shapes have not changed by a bit, and
/// remembers what it found. The result is the same as without. Stopped: nothing is remembered.
[[nodiscard]] FitResult confirmedFit(const FitResult& live, const std::vector<FitSolid>& solids,
                                     const PlateSet& plates, KnownPairs& known, const Job& job = {},
                                     const FitWords& words = {});

} // namespace slab
