#pragma once
// Flat pieces that tile the surface of solids, put together to polyhedra: coplanar neighbours become one
// face, and corners are worked out again from the exact planes. Used for joined forms (pieces from a boolean)
// and single ones.
#include "core/geometry/polyhedron.h"
#include <functional>

namespace slab {

/// A flat region of a solid's surface.
struct FlatPiece {
    Plane plane;
    int planeId = 0;                        ///< same number = same plane, exactly
    int solid = 0;                          ///< which solid it bounds
    std::vector<int> inputs;                ///< flat input face indices that it came from, ascending
    std::vector<std::pair<int, int>> edges; ///< directed, the region to the left seen from outside
};

struct Patchwork {
    std::vector<Vec3> points;
    std::vector<FlatPiece> pieces;
};

/// Polyhedron of merged pieces, with where its faces came from.
struct Merged {
    Polyhedron solid;
    std::vector<std::vector<int>> faceInputs; ///< ascending flat input face indices
    std::vector<int> faceSolid;
};

/// Asked for two flat input face indices: may they become one face?
using MayMergeFaces = std::function<bool(int, int)>;

/// Flat faces of solids as pieces, nothing joined; input faces are numbered solids in order, faces in order.
[[nodiscard]] Patchwork patchworkOf(const std::vector<Polyhedron>& solids);

/// Numbers planes of all faces; planes equal within 1e-9 rad and 1e-7 mm over the solids' size share a
/// number.
[[nodiscard]] std::vector<int> planeNumbers(const std::vector<Polyhedron>& solids);

/// Neighbouring pieces on the same plane become one face where `mayMerge` allows (empty = always); corners in
/// the middle of a straight edge between two faces are dropped.
[[nodiscard]] Merged merged(const Patchwork& patchwork, const MayMergeFaces& mayMerge = {});

/// Moves every vertex onto the planes of its faces by the least step; a vertex of one or two planes is also
/// moved onto those `helpers` that pass within `reach` mm of it and fix it along the rest.
/// @return greatest distance left between a vertex and a plane of its faces, mm
double settleVertices(Polyhedron& solid, const std::vector<Plane>& helpers = {}, double reach = 1e-5);

} // namespace slab
