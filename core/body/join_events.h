#pragma once
// Where the surfaces of overlapping solids meet: what tells whether a union keeps its structure while they
// move.
#include "core/geometry/polyhedron.h"
#include <array>

namespace slab {

/// A corner of a solid, an edge that pierces another solid's face, or three solids' faces that meet; not
/// inside any of the solids.
struct JoinEvent {
    /// {0, solid, corner, -1, …}, {1, solid, corner, corner, face}, {2, face, face, face, -1}; faces are
    /// numbered solids in order, faces in order.
    std::array<int, 5> key{-1, -1, -1, -1, -1};
    std::vector<int> faces; ///< all faces, of whichever solid, on which it lies; ascending
    Vec3 at = Vec3::Zero();
    /// The same place of the structure, wherever it has moved to.
    [[nodiscard]] bool isLike(const JoinEvent& o) const { return key == o.key && faces == o.faces; }
};
struct JoinEvents {
    std::vector<JoinEvent> list; ///< in order of their keys
    /// False if something lies so near to something else (0.001 mm) that it cannot be told whether they
    /// touch; the list is then not complete.
    bool sure = true;
};

/// All corners of the arrangement of the solids' surfaces that lie inside none of them.
///
/// Two sets of solids with the same faces and corners whose events are alike one by one have unions of the
/// same structure: along any line in which two faces meet, the boundary of the union can begin and end in
/// such a place only.
[[nodiscard]] JoinEvents joinEvents(const std::vector<Polyhedron>& solids);

} // namespace slab
