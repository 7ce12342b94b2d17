#pragma once
// A cutting part: plates or blanks laid flat, alike ones as copies of one.
#include "core/plates/edges.h"
#include <algorithm>

namespace slab {

/// What one plate of a panel meets at an edge.
struct EdgeMeeting {
    std::string neighbour;
    EdgeRole role = EdgeRole::cut;
    int mark = 0; ///< shared with the neighbour's edge and with no other; 0 = none
    bool operator==(const EdgeMeeting&) const = default;
};
/// One plate (or blank) cut from a panel. Laid on the panel's outline, its edges fall on the panel's.
struct PanelCopy {
    std::string plate;                           ///< of a blank: its first
    std::vector<std::vector<EdgeMeeting>> loops; ///< by the panel's edges: boundary first, then its holes
    std::vector<FaceRest> rests;
    std::vector<Contact> contacts{}; ///< in the panel's coordinates
    bool operator==(const PanelCopy&) const = default;
};

/// One plate of a blank, laid flat in the panel's plane.
struct PanelPart {
    std::string plate; ///< of the first copy
    double turn = 0;   ///< radians: the plate's own flat coordinates are turned about their origin …
    Vec2 shift = Vec2::Zero(); ///< … and then moved, into the panel's
    Ring outer, inner;         ///< the plate's own boundary on either face, panel coordinates
    bool operator==(const PanelPart&) const = default;
};

/// A line about which a blank is folded. One face stays whole; the other gets a V groove down to the score.
struct PanelFold {
    int a = 0, b = 0; ///< parts; `a` is the one nearer to the first part
    Vec2 from = Vec2::Zero(),
         to = Vec2::Zero(); ///< on the face left whole, true length; `a` lies on its left
    bool valley = false; ///< false: groove in the inside face, outside face whole; true: the other way round
    double dihedral = 0; ///< radians through the inside, as folded
    double angle = 0;    ///< radians folded by = angle of the groove = sum of both tilts
    double width = 0;    ///< of the groove at its mouth, mm
    Ring mouth;   ///< its corners, counter-clockwise: border of `a`, border of `b`; empty if none is left
    int mark = 0; ///< match mark number of the joint
    int edgeA = -1, edgeB = -1; ///< edges of the plates' own boundaries, -1 = of a hole
    bool operator==(const PanelFold&) const = default;
};

/// A cutting part: one outline, cut once or more. Plates joined by folds are one part, a blank: its outlines
/// are those before grooving, so a groove's mouth is bridged straight from plate to plate (or by the fold
/// line's end, where that takes in less).
struct Panel {
    std::string name;                ///< of the first plate; a blank's is made of its plates' names
    std::vector<std::string> plates; ///< all plates cut from this outline, copy after copy ("copies")
    std::vector<PanelCopy> copies;   ///< one per copy: what each meets
    std::string mirrorOf;            ///< name of the panel that this one is the other hand of; empty if none
    std::string stock;
    double thickness = 0;
    PanelLoop boundary;
    std::vector<PanelLoop> holes;
    Vec2 up = Vec2::UnitY(); ///< direction in the panel that points up (or forward on a level plate)
    std::string upWord;      ///< "up", "forward", "port"…
    std::string fingerprint; ///< changes when anything that is cut changes by more than 0.05 mm or 0.05°
    Polygon footprint;       ///< union of outer and inner outlines less holes through both, for nesting
    std::vector<PanelPart> parts; ///< of a blank, by rank, then name; else empty
    std::vector<PanelFold> folds;
    std::vector<GuideLine> guides{};
    std::vector<std::string> cutFrom{}; ///< of a piece between seams: the plates that `plates` are pieces of
    [[nodiscard]] std::size_t copyCount() const {
        return plates.size() / std::max<std::size_t>(parts.size(), 1);
    }
    /// Is it cut for that plate, wholly or for a piece of it?
    [[nodiscard]] bool isOf(const std::string& plate) const {
        const auto has = [&](const auto& names) {
            return std::find(names.begin(), names.end(), plate) != names.end();
        };
        return has(plates) || has(cutFrom);
    }
    /// Plate that an edge belongs to, in one of the copies.
    [[nodiscard]] const std::string& plateOf(const PanelEdge& edge, std::size_t copy = 0) const {
        return plates[copy * std::max<std::size_t>(parts.size(), 1) + static_cast<std::size_t>(edge.part)];
    }
    bool operator==(const Panel&) const = default;
};

} // namespace slab
