#pragma once
// Cleats and corner blocks: sticks glued into the inside corners of joints, by rule.
#include "core/donor/donor.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"
#include <functional>

namespace slab {

/// A rule as figures.
struct CleatChoice {
    std::string name, a = "*", b = "*"; ///< plates or patterns, either way round
    bool block = false;                 ///< pieces of `length` at most every `spacing`, else one stick
    std::string stock;                  ///< sheet; empty = timber bought by length
    double width = 20, depth = 20;      ///< before planing: on the first plate, square to it; mm
    double endGap = 0;                  ///< left free at both ends, mm
    double length = 40, spacing = 250;  ///< of blocks, and between their middles at most, mm
    double barLength = 2400;            ///< longest piece that the stock gives, mm
    double price = 0;                   ///< of a bar of timber
    double density = 450;               ///< of timber, kg/m³
    int index = 0;                      ///< in the document's list
    bool operator==(const CleatChoice&) const = default;
};

/// Cross-section of a bar planed to the corner of a joint.
struct CleatSection {
    /// x along the first plate's inside face away from the corner (0, 0), y square to it into the body;
    /// counter-clockwise, convex. The second plate's inside face runs from the corner at the dihedral.
    Ring outline;
    int planed = 0;          ///< faces that are planed off the bar: 0, 1 or 2
    double onA = 0, onB = 0; ///< how far from the corner it lies on the two plates, mm
    bool operator==(const CleatSection&) const = default;
};
/// A bar of width x depth laid in a corner of `dihedral`. Square corners take it as it is; sharp ones have
/// one face planed; blunt ones too, until less than half the width would be left on the first plate: then the
/// bar stands on the bisector with two faces planed, which is never done to a strip cut from a sheet.
/// @param flat  a strip of a sheet: both of its faces stay parallel to the first plate
/// @error "cleat-corner" if the dihedral is not in (0, pi), the bar has no size, or a flat strip would keep
/// less than half its width on the first plate or nothing of its other face
[[nodiscard]] Expected<CleatSection> cleatSection(double width, double depth, double dihedral,
                                                  bool flat = false);

/// Pieces alike on one joint: a line of the cut list.
struct CleatLine {
    std::string rule, a, b; ///< the joint's plates; the bar's width lies on `a`
    int mark = 0;           ///< match mark of the joint
    std::string stock;      ///< sheet; empty = timber
    bool block = false;
    double length = 0; ///< of each, mm
    int count = 0;
    double width = 0, depth = 0; ///< before planing, mm
    double angle = 0;            ///< of the corner that they fill = the joint's dihedral, radians
    CleatSection section;
    double glueA = 0, glueB = 0;                  ///< widths that lie on the two plates, mm
    double pitch = 0;                             ///< between the middles of blocks, mm; 0 = a single piece
    double barLength = 0, price = 0, density = 0; ///< of timber, as in the rule
    std::vector<std::string> plates;              ///< names of the pieces
    bool operator==(const CleatLine&) const = default;
};

struct CleatSet {
    std::vector<CleatLine> lines; ///< by rule, then by joint
    /// The pieces: "hull/port/sill cleat", "hull/port/sill cleat#2", after the plate that their width lies
    /// on. Those of timber have no outlines.
    PlateList parts;
    std::vector<Contact> marks; ///< where they are glued, on the plates named in `on`
    std::vector<Finding> findings;
    bool operator==(const CleatSet&) const = default;
};

/// Reads the document's rules; empty values: a bar of 20 x 20 mm (of a sheet: its thickness deep), no end
/// gap, blocks of 40 mm every 250 mm, bars of 2.4 m without a price, 450 kg/m³. A rule that cannot be read
/// gives a finding and is left out.
/// @source  cleats of about 20 x 20 mm, blocks every 200 to 300 mm: common practice; 450 kg/m³: softwood,
/// between the mean densities of classes C24 (420) and C30 (460) in EN 338, from memory
[[nodiscard]] std::vector<CleatChoice> resolveCleats(const Project& project, const Scope& scope,
                                                     const StockSet& stock, std::vector<Finding>& findings);

/// What cleats keep clear of.
struct CleatRoom {
    std::vector<FitSolid> solids;                              ///< by plates that stand still
    std::vector<FitSolid> carried{};                           ///< by plates that move: as they see it
    std::function<bool(const std::string& plate)> isCarried{}; ///< none = no plate moves
};

/// Sticks or blocks for every joint with an inside corner below 180° that a rule names, and on both sides of
/// every plate form or frame that stands on the middle of a plate and is named (a rule for "*" and "*" is for
/// joints only); the first rule that names a joint has it. A piece lies on both plates' inside faces over its
/// whole length: it ends where either face ends or is cut away, where a plate, a frame or an earlier piece
/// stands (of two that meet in a corner the earlier runs past, the later butts against it), and short of
/// donor, rider and what moves by the clearance that each wants. Ends are square. Stretches shorter than the
/// bar is wide are left out; those longer than the stock are made of whole lengths and a rest, end to end.
/// @param plates  the shell's, the mechanisms' and the frames'
[[nodiscard]] CleatSet makeCleats(const std::vector<CleatChoice>& rules, const PlateSet& plates,
                                  const CleatRoom& room, const UnitStyle& units = {});

/// The plates with the cleats' pieces, and their places marked on the plates that they are glued to.
[[nodiscard]] PlateSet withCleats(const PlateSet& plates, const CleatSet& cleats);

} // namespace slab
