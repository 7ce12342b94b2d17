#pragma once
// Parts made ready for nesting: every allowed turn as convex pieces, grown by half the spacing.
#include "core/nesting/convex.h"
#include "core/nesting/nest.h"
#include <array>

namespace slab::nesting {

/// One part in one of its allowed positions, about its own origin.
struct Oriented {
    int part = 0;
    double rotation = 0; ///< radians
    bool flipped = false;
    bool rough = false; ///< many pieces: no-fit polygons are united on a grid, exact slots may close
    std::vector<ConvexPiece> pieces; ///< of the outline grown by half the spacing
    std::vector<ConvexPiece> filled; ///< the same without holes; empty if there are none
    bool filledRough = false;        ///< of `filled`
    std::vector<Extent> holes;       ///< of the outline's holes that `pieces` keep, not shrunk
    Extent box;                      ///< of the outline itself
    Extent reach;                    ///< of the pieces
    double area = 0;                 ///< of the outline itself, mm²
    double weight = 0;               ///< fourth root of its hull's area: share in the severity of an overlap
    /// The same part so many quarter turns on: indices in Library::oriented, itself first; -1 = not allowed.
    std::array<int, 4> quarters{-1, -1, -1, -1};
};

struct Library {
    std::vector<Oriented> oriented;
    std::vector<std::vector<int>> byPart; ///< indices in `oriented`; empty = the part cannot be nested
    double size = 1;                      ///< largest extent of anything, mm
    double eps = 1e-9;                    ///< depth that still counts as touching, mm
};

/// Cosine and sine, exact for quarter turns.
[[nodiscard]] std::pair<double, double> cosSin(double radians);

/// Angles tried for a part that may turn freely: longest outline edges laid along x, in quarter turns.
/// @param most  upper bound of the count, at least 1
[[nodiscard]] std::vector<double> freeAngles(const Polygon& shape, int most);

/// How much detail is kept.
struct Detail {
    int freeTurns = 8; ///< angles tried for parts without a list of their own
    bool fast =
        false; ///< small holes are filled and outlines rounded off more, for an answer in milliseconds
};
[[nodiscard]] Library makeLibrary(const NestProblem& problem, const Detail& detail);

} // namespace slab::nesting
