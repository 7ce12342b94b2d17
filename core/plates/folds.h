#pragma once
// Plates joined by folds become one cutting part, a blank.
//
// A convex fold is a V groove in the inside face and leaves the outside face whole; a valley fold the other
// way round. About the line on the whole face every plate is turned into the plane of the first one (highest
// rank, then name). Folds between plates of different stock, folds that close a ring, and blanks that would
// lie over themselves cannot be made: a finding says so and the plates stay single, mitred at that edge.
#include "core/plates/plate.h"

namespace slab::plates {

/// A piece of a fold: one edge of either plate on the same line.
struct FoldLine {
    int a = 0, b = 0;         ///< indices in PlateSet::plates
    int loopA = 0, loopB = 0; ///< 0 = the boundary, n = hole n - 1
    int edgeA = 0, edgeB = 0; ///< edges of those loops
    int joint = 0;            ///< index in PlateSet::joints
    bool valley = false;
    Vec3 from = Vec3::Zero(), to = Vec3::Zero(); ///< what both have of the line, on the whole face, body axes
};

/// Plates that hang together by folds, by rank, then name; lines without a ring.
struct FoldTree {
    std::vector<int> plates;
    std::vector<FoldLine> lines;
};

/// Why a tree cannot lie flat.
struct FoldClash {
    int a = 0, b = 0; ///< parts (positions in FoldTree::plates) that lie over each other
    Vec3 at = Vec3::Zero();
    int line = 0; ///< a fold between them, index in FoldTree::lines
};

[[nodiscard]] const PanelLoop& loopOf(const Plate& plate, int loop);

/// Fills PlateSet::blanks; sets the role of fold edges that cannot be folded to mitre, with a finding.
void joinFolds(PlateSet& set);

/// Lays a tree flat: everything of the panel but names, footprint and fingerprint. @return nothing if it
/// clashes
[[nodiscard]] std::optional<Panel> unfold(const PlateSet& set, const FoldTree& tree, FoldClash& clash);

/// Joins the loops of the placed plates at the folds, on both faces. `panel` has its parts and folds.
/// @param byCorners  bridges grooves by way of the fold line's ends where that takes in less
/// @return false if the outside face does not become one piece
[[nodiscard]] bool joinLoops(const PlateSet& set, const FoldTree& tree, Panel& panel, bool byCorners);

/// From a plate's own flat coordinates to the panel's.
[[nodiscard]] Vec2 placed(const PanelPart& part, const Vec2& point);

} // namespace slab::plates
