#pragma once
// Cleats and corner blocks: sticks along the inside of joints, by rule.
#include "core/donor/donor.h"
#include "core/plates/plate.h"

namespace slab {

/// A rule as figures.
struct CleatChoice {
    std::string name, a = "*", b = "*"; ///< plates or patterns, either way round
    bool block = false;                 ///< pieces of `length` at most every `spacing`, else one long stick
    double width = 20, depth = 20;      ///< of the bar: along the first plate, square to it; mm
    double endGap = 0;                  ///< left free at both ends, mm
    double length = 40, spacing = 250;  ///< of blocks, mm
    int index = 0;                      ///< in the document's list
    bool operator==(const CleatChoice&) const = default;
};

/// Section of a bar planed to the corner of a joint.
struct CleatSection {
    /// x along the first plate's inside face away from the corner (0, 0), y square to it into the body;
    /// counter-clockwise, convex. The second plate's inside face runs from the corner at the dihedral.
    Ring outline;
    int planed = 0;          ///< faces that are planed off the bar: 0, 1 or 2
    double onA = 0, onB = 0; ///< widths that lie on the two plates, mm
    bool operator==(const CleatSection&) const = default;
};
/// A bar of width x depth laid in a corner of `dihedral`. Square corners take it as it is; sharp ones have
/// one face planed; blunt ones too, until less than half the width would be left on the first plate: then the
/// bar stands on the bisector with two faces planed.
/// @error "cleat-corner" if the dihedral is not in (0, pi) or the bar has no size
[[nodiscard]] Expected<CleatSection> cleatSection(double width, double depth, double dihedral);

/// One stick or block.
struct CleatPiece {
    int line = 0;      ///< in CleatSet::lines
    ConvexSolid shape; ///< body axes
    bool operator==(const CleatPiece&) const = default;
};
/// Pieces alike on one joint.
struct CleatLine {
    std::string rule, a, b; ///< the joint's plates; the bar's width lies on `a`
    int mark = 0;           ///< match mark of the joint
    double length = 0;      ///< of each, mm
    int count = 0;
    double width = 0, depth = 0; ///< of the bar before planing, mm
    double angle = 0;            ///< of the planed corner = the joint's dihedral, radians
    int planed = 0;              ///< faces to plane
    double pitch = 0;            ///< between the middles of blocks, mm; 0 = a single piece
    bool operator==(const CleatLine&) const = default;
};
/// What to buy: bars of one cross-section.
struct StickLine {
    double width = 0, depth = 0; ///< mm
    int pieces = 0;
    double length = 0;  ///< all together, without saw kerfs, mm
    double longest = 0; ///< mm
    bool operator==(const StickLine&) const = default;
};

struct CleatSet {
    std::vector<CleatLine> lines; ///< by rule, then by joint
    std::vector<CleatPiece> pieces;
    std::vector<StickLine> sticks;
    std::vector<Finding> findings;
    bool operator==(const CleatSet&) const = default;
};

/// Reads the document's rules; empty sizes: 20 x 20 mm, no end gap, blocks of 40 mm every 250 mm (common
/// practice: cleats of about 20 x 20 mm, gussets every 200–300 mm). A rule that cannot be read gives a
/// finding and is left out.
[[nodiscard]] std::vector<CleatChoice> resolveCleats(const Project& project, const Scope& scope,
                                                     std::vector<Finding>& findings);

/// Sticks for every joint with an inside corner below 180° that a rule names; the first rule that names a
/// joint counts. A stick lies on both plates' inside faces over its whole length: it ends where either face
/// ends or is cut away, and leaves out what plates, frames and earlier sticks take (at a corner the earlier
/// runs past, the later butts against it). Both ends are cut square. Pieces shorter than the bar is wide are
/// left out. Near or in donor or rider: a finding.
/// @param plates  the shell's and the frames'
[[nodiscard]] CleatSet makeCleats(const std::vector<CleatChoice>& rules, const PlateSet& plates,
                                  const std::vector<FitSolid>& solids, const UnitStyle& units = {});

} // namespace slab
