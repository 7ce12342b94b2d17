#pragma once
// Shared state of one closed skin while its shell is shared out.
//
// The rule. Every plate f has a zone Z_f: the points of the skin within t_f of its face, where the face's
// outline is moved, at each depth, to the skin of a convex neighbour and behind a valley neighbour's plate
// (see zones.h). For two zones that meet, one claim says who wins the common points; it is the same for both,
// so nothing overlaps:
//
//     plate_f = Z_f minus, for every g, the points of Z_g where g wins
//
// Claims: at an edge that f covers, f wins (convex) or g wins (valley: the covered plate runs on behind);
// mitre: the lesser depth/t wins (convex) or the greater (valley); cuts on a bisector and mitres near flat
// already part the zones. Faces that share no edge: higher rank, then lesser depth/t. On a convex body this
// is exactly an intersection of half-spaces, and along every edge it gives the a and b formulas of the plate
// room's contract. At a saddle corner of three faces the claims may run in a circle; there the solid is
// o ∪ (p ∩ q) or o ∩ (p ∪ q), so p and q settle first and their winner meets o: the circle ends with o. Any
// other circle goes to the highest rank, or stays open if an edge in it was chosen by hand. Points of the
// shell that are left over (claims in a circle, steps at bisectors) are gaps, and are measured.
#include "core/base/index.h"
#include "core/plates/cell.h"
#include "core/plates/plate.h"
#include "core/plates/walls.h"
#include <map>
#include <set>

namespace slab::plates {

enum class Claim { never, always, where }; ///< where: inside a half-space

/// The joint between two faces of a skin along their common edges. Faces that meet both on convex and on
/// valley edges have a bond for each.
struct Bond {
    int f = 0, g = 0;       ///< faces, f < g
    std::vector<int> edges; ///< indices in Skin::edges
    JointKind kind = JointKind::cover;
    bool forced = false;
    bool open = false;  ///< not fastened, or one side left out
    bool apart = false; ///< the zones are parted by `plane` themselves
    bool valley = false;
    int covers = -1;     ///< face that covers, -1 = mitre
    double dihedral = 0; ///< of the longest edge
    double step = 0;
    Half plane; ///< mitre or bisector: the side of f; plane < 0 if none
    bool hasPlane = false;
    std::string why;
};

struct Shell {
    const Body& body;
    const PlateRules& rules;
    int bodyIndex = 0;
    std::vector<int> faces; ///< of this closed skin
    PlaneTable planes;
    double size = 1000;
    Box3 limits;                   ///< of this closed skin
    std::vector<Half> skin, inner; ///< by face: points with depth >= 0; points with depth >= t
    std::vector<Bond> bonds;
    std::map<std::pair<int, int>, std::vector<int>> bondsOf; ///< lesser face, greater face
    std::vector<std::vector<int>> bondsOfFace;
    std::map<int, std::pair<int, int>> pairOfPlane; ///< mitre plane -> faces
    Walls walls;                                    ///< of openings and round forms
    std::vector<Cells> zones;
    std::vector<Cells> plates;
    std::set<int> openedAway;       ///< faces whose whole plate went into openings
    std::map<int, Cells> fullZones; ///< see fullZone()
    std::vector<Misfit> gaps;
    Cells gapCells;
    Cell whole; ///< the skin if it is convex, else a box around it
    bool isConvex = false;
    std::map<std::pair<int, int>, int> edgeAt; ///< vertices, either way -> index in Skin::edges
    std::vector<int> bondOfEdge;               ///< by skin edge
    std::vector<Box3> boxOfFace;
    std::vector<Finding> findings;

    Shell(const Body& b, const PlateRules& r, int index);
    [[nodiscard]] double thickness(int f) const;
    [[nodiscard]] bool present(int f) const { return thickness(f) > 0; }
    [[nodiscard]] int rank(int f) const { return rules.faces[static_cast<std::size_t>(f)].rank; }
    [[nodiscard]] const SkinFace& face(int f) const { return body.skin.faces[static_cast<std::size_t>(f)]; }
    [[nodiscard]] const Bond* bond(int f, int g) const; ///< the first of the two faces
    /// The bond nearest to a point where the two have several.
    [[nodiscard]] const Bond* bondNear(int f, int g, const Vec3& point) const;
    [[nodiscard]] bool convex() const;
};

/// Claim of `g` on the common points of the zones of f and g; `half` is where g wins for Claim::where.
struct Verdict {
    Claim claim = Claim::never;
    Half half;
};
/// @param bond  between the two faces, or null if they share no edge
[[nodiscard]] Verdict verdict(Shell& shell, int f, int g, const Bond* bond);
/// Stretch along the line of two faces where one bond rules.
struct Stretch {
    const Bond* bond = nullptr;
    std::vector<Half> within;
};
/// One entry for almost all pairs; several where two faces meet on convex and on valley edges of the same
/// line.
[[nodiscard]] std::vector<Stretch> stretches(Shell& shell, int f, int g);

/// Decides the joint at every edge (rank, near-flat rule, overrides).
void decideJoints(Shell& shell);
/// Points where depth_f / t_f <= depth_g / t_g.
[[nodiscard]] Half lesserRatio(Shell& shell, int f, int g);
/// Fills Shell::zones.
void makeZones(Shell& shell, const Job& job);
/// Fills Shell::plates from the zones.
void contest(Shell& shell, const Job& job);
/// Fills Shell::gaps: circles of claims and bisector steps.
void findGaps(Shell& shell, const Job& job);

} // namespace slab::plates
