#pragma once
// The edges of a board, and what stands or is marked on its faces.
#include "core/geometry/polygon.h"
#include <string>
#include <vector>

namespace slab {

enum class EdgeRole {
    covers, ///< runs past its neighbour
    butts,  ///< stops against its neighbour
    mitre,  ///< both tilted
    fold,   ///< scored, one blank with the neighbour
    open,   ///< no joint on purpose, or the neighbour is left out
    rests,  ///< stands or butts on a face of another plate and is cut to it (T-joint)
    cut,    ///< side of an opening or a free edge
    seam    ///< square cut through one panel; the neighbour is the piece across it
};
[[nodiscard]] const char* roleName(EdgeRole role);

/// Edge of an outline from point i to point i + 1.
struct PanelEdge {
    std::string neighbour; ///< plate name; empty at a free edge or an opening
    EdgeRole role = EdgeRole::cut;
    double dihedral = 0; ///< radians through the inside; 0 when there is no neighbour
    double bevel = 0;    ///< tilt from square, atan2(offsetInner - offsetOuter, thickness); positive when the
                         ///< inner face is the smaller
    double length = 0;   ///< of the outer outline's edge, mm
    double offsetOuter = 0; ///< a: from the skin's edge (of a foot: the edge as drawn) to the outer outline,
                            ///< inward positive, mm
    double offsetInner = 0; ///< b: to the inner outline
    int inner = -1;         ///< index of the matching edge of the inner outline, -1 = none left
    int mark = 0;           ///< match mark number shared with the neighbour's edge; 0 = none
    int part = 0;           ///< in a blank: index in Panel::parts of the plate that the edge belongs to
    int own = -1; ///< in a blank or a piece: index of the edge in that plate's own boundary; -1 = of an
                  ///< opening, or made by the grooves or a seam
    bool operator==(const PanelEdge&) const = default;
};

/// A closed boundary of a panel on both faces.
struct PanelLoop {
    std::string opening; ///< name of the opening; empty for the boundary itself or a hole of the skin
    Ring outer;          ///< outside face; boundary counter-clockwise seen from outside, holes clockwise
    std::vector<PanelEdge> edges;      ///< edges[i] from outer[i] to outer[i+1]
    Ring inner;                        ///< inside face, same frame, same direction
    std::vector<PanelEdge> extraInner; ///< inner edges with no outer edge (their `inner` is the index)
    bool operator==(const PanelLoop&) const = default;
};

/// A plate form that lies flat on another plate.
struct FaceRest {
    std::string plate;    ///< whose face it lies on
    bool outside = false; ///< with its outside face, else with its inside face
    bool within = false;  ///< on the other's inside face
    int mark = 0;         ///< match mark number shared with the contact on that plate
    bool operator==(const FaceRest&) const = default;
};

/// Where a plate form stands or lies on one face of this plate.
struct Contact {
    std::string on;      ///< this plate
    std::string plate;   ///< what stands there
    int mark = 0;        ///< match mark number shared with that plate's edge or face; 0 on a further plate
                         ///< that the same edge stands on
    bool inside = false; ///< on the inside face
    bool flat = false;   ///< it lies there with its face, else it stands with an edge
    std::vector<Ring> rings; ///< outline of the contact, panel coordinates; around it counter-clockwise, gaps
                             ///< in it clockwise
    bool operator==(const Contact&) const = default;
};

/// A line to be marked out on a face, not cut: a link of a belt, the end of a lap, a joint of another layer.
struct GuideLine {
    Vec2 from = Vec2::Zero(), to = Vec2::Zero(); ///< panel coordinates
    std::string words;                           ///< told beside it; may be empty
    bool inside = false;                         ///< on the inside face
    bool operator==(const GuideLine&) const = default;
};

} // namespace slab
