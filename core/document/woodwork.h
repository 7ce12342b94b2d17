#pragma once
// What is made to hold the plates: frames, cleats, seams; and what comes off as one.
#include "core/document/basics.h"

namespace slab {

/// A rib or bulkhead: a board cut from the inside section of the shell. Its middle plane is square to `axis`
/// where that is at `station`, then turned about that point of the axis.
struct Rib {
    std::string name;
    std::string axis = "x"; ///< "x" a bulkhead, "y" a lengthwise rib, "z" a shelf
    Text station;           ///< along the axis, subject
    Text yaw, pitch;        ///< of the plane's normal: first about z, then about the turned y
    std::string stock;      ///< empty = the sheet for all
    Text gap;               ///< to the plates' inner faces, build
    Text web;               ///< width left round the opening that lightens it, build; empty = a whole board
    Text clearance;         ///< to donor and rider, build; empty = each solid's own
    Text fit;               ///< a slot is this much wider than the board that goes in, build; may be below 0
    bool off = false;
    Extra extra;
    bool operator==(const Rib&) const = default;
};

/// Sticks or blocks glued into the inside corners of joints.
struct CleatRule {
    std::string name;
    std::string a = "*", b = "*"; ///< "between": plates or patterns
    std::string kind = "cleat";   ///< "cleat": a stick along the joint; "block": pieces every `spacing`
    std::string stock;            ///< sheet that they are cut from; empty = timber bought by length
    Text width, depth;            ///< cross-section before planing, build; of a sheet the depth is its thickness
    Text end_gap;                 ///< left free at both ends, build
    Text length, spacing;         ///< of blocks, build
    Text bar_length;              ///< in which the timber is sold, build
    Text price;                   ///< of one such bar
    Text density;                 ///< of the timber, kg/m³
    Extra extra;
    bool operator==(const CleatRule&) const = default;
};

/// A cut that splits a panel too large for its sheet. Without one the cut is found.
struct Seam {
    std::string plate;
    Text at;                 ///< from the middle of the panel along its longer side, subject
    Text turn;               ///< of the cut from square to that side
    Text strip;              ///< width of the butt strip behind it, build
    std::string strip_stock; ///< empty = the plate's own
    Extra extra;
    bool operator==(const Seam&) const = default;
};

/// Plates that come off and travel as one.
struct Module {
    std::string name;
    std::vector<std::string> plates; ///< names or patterns
    Extra extra;
    bool operator==(const Module&) const = default;
};

/// An opening that the body or its modules must pass: a door, a hatch.
struct Passage {
    std::string name;
    Text width, height; ///< build
    Extra extra;
    bool operator==(const Passage&) const = default;
};

} // namespace slab
