#pragma once
// A plate is one skin face with a material, growing inward; a panel is a plate laid flat.
#include "core/body/skin.h"
#include "core/geometry/convex.h"
#include <algorithm>

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

/// A board: of a skin face, a plate form, a frame … What is cut from no sheet, as sticks of timber are, has no
/// outlines, and so no panel.
struct Plate {
    std::string name;
    std::string form;
    int face = -1; ///< index in Body::skin.faces, or -1 for a plate form
    std::string stock;
    double thickness = 0;
    int rank = 0; ///< 0 is the highest
    Frame frame;  ///< panel to body; w outward; outer face at w = 0, inner at w = -thickness
    PanelLoop boundary;
    std::vector<PanelLoop> holes;
    std::vector<FaceRest> rests;   ///< plate forms only
    std::vector<Contact> contacts; ///< plate forms that stand or lie on it
    std::vector<GuideLine> guides{};
    Polyhedron solid;               ///< body axes
    std::vector<ConvexSolid> cells; ///< the solid as convex pieces, for live distances
    double volume = 0;              ///< of the solid, mm³
    double density = 0;             ///< kg/m³, of what is cut from no sheet; else 0
    bool operator==(const Plate&) const = default;
};

/// Space in the shell that no plate fills, or that two fill.
struct Misfit {
    std::vector<std::string> plates;
    double volume = 0; ///< mm³
    Vec3 at = Vec3::Zero();
    bool operator==(const Misfit&) const = default;
};

/// One skin edge and what was decided there, for the views.
struct JointInfo {
    std::string a, b; ///< plate names; for cover, a covers b
    JointKind kind = JointKind::cover;
    bool forced = false; ///< by an override
    double dihedral = 0;
    Vec3 from = Vec3::Zero(), to = Vec3::Zero();
    double step = 0; ///< inner step left by a bisector cut, mm
    int mark = 0;
    std::string why; ///< plain words: why this joint ("hull/deck ranks above hull/port", "near flat: mitred")
    bool operator==(const JointInfo&) const = default;
};

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

struct PlateSet {
    std::vector<Plate> plates;
    std::vector<Misfit> gaps, overlaps;
    std::vector<JointInfo> joints;
    std::vector<Panel> blanks; ///< plates joined by folds, each blank once; makePanels() finds the copies
    std::vector<Finding> findings;
    bool operator==(const PlateSet&) const = default;
};

/// What the builder chose, as figures.
struct FaceChoice {
    std::string stock;    ///< empty = left out
    double thickness = 0; ///< mm; 0 = left out
    int rank = 0;
    bool operator==(const FaceChoice&) const = default;
};
struct ResolvedOpening {
    std::string name;
    std::string plate;               ///< host, or empty
    std::vector<std::string> plates; ///< patterns when directed
    Vec3 origin = Vec3::Zero();      ///< directed: a point on the axis; hosted: unused
    Vec3 direction = Vec3::Zero();   ///< unit, directed only
    Vec2 at = Vec2::Zero();          ///< hosted: u, v from the centre of the plate's outline
    Ring outline;                    ///< around (0, 0), counter-clockwise; circles as `circle` facets
    double circle = 0;               ///< diameter if it is a true circle, else 0
    bool parallelWalls = false;
    bool operator==(const ResolvedOpening&) const = default;
};
struct PlateRules {
    std::vector<FaceChoice> faces;      ///< one per Body::skin.faces
    std::vector<FaceChoice> freePlates; ///< one per Body::plates
    JointKind fallback = JointKind::cover;
    std::vector<EdgeJoint> edges;
    std::vector<ResolvedOpening> openings;
    UnitStyle units; ///< for messages
    bool operator==(const PlateRules&) const = default;
};

/// The sharing rule of the shell: highest rank first, equals by least depth / thickness; then openings.
///
/// Σ plate volumes + Σ gaps = shell; no two plates have a common volume above 1e-6 mm³.
[[nodiscard]] PlateSet buildPlates(const Body& body, const PlateRules& rules, const Job& job = {});

/// Ranks and materials from the document for this body.
[[nodiscard]] PlateRules resolveRules(const Project& project, const Scope& scope, const Body& body,
                                      std::vector<Finding>& findings);

[[nodiscard]] std::vector<Panel> makePanels(const PlateSet& plates);

} // namespace slab
