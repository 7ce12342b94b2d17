#pragma once
// The only bridge to OpenCASCADE: plain polyhedra in, plain values out. No OpenCASCADE type leaves this room.
// Every call catches Standard_Failure and returns it as an Error.
#include "core/base/job.h"
#include "core/geometry/convex.h"
#include "core/geometry/polyhedron.h"
#include <functional>
#include <memory>

namespace slab::occt {

/// Union of closed polyhedra, coplanar faces unified where their names may merge.
struct Fused {
    Polyhedron solid;                         ///< all pieces together
    std::vector<std::vector<int>> faceInputs; ///< for each face of `solid`: flat indices of the input faces
                                              ///< it came from (solids in order, faces in order), ascending
    std::vector<int> faceSolid;               ///< which separate solid each face bounds, 0 … solids − 1
    int solids = 0;                           ///< how many separate solids came out
    std::vector<Vec3> contacts; ///< where parts touch only along an edge or in a point, one place each
};
/// @param mayMerge  asked for two flat input face indices of coplanar touching faces; may be empty (= always)
/// @error  "join-failed", "stopped"
[[nodiscard]] Expected<Fused> fuse(const std::vector<Polyhedron>& solids,
                                   const std::function<bool(int, int)>& mayMerge = {}, const Job& job = {});

/// Last step of fuse(): corners of input solids that lie in a corner of the union's give it their
/// coordinates, all others are met from the exact planes; then the union is looked at for what cannot be.
/// @param joined  union of `solids`, its faces' planes taken from theirs
/// @error "join-failed"
[[nodiscard]] Expected<void> settle(Polyhedron& joined, const std::vector<Polyhedron>& solids);

/// Volume of one solid as OpenCASCADE computes it (built from planar faces, sewn, fixed, checked), mm³.
/// @error "invalid-solid"
[[nodiscard]] Expected<double> volume(const Polyhedron& solid);
/// Common volume of two solids, mm³.
[[nodiscard]] Expected<double> commonVolume(const Polyhedron& a, const Polyhedron& b, const Job& job = {});
[[nodiscard]] Expected<double> commonVolume(const Polyhedron& a, const ConvexSolid& b, const Job& job = {});
/// Least distance and nearest points; `depth` is not worked out and stays 0.
[[nodiscard]] Expected<Nearest> nearest(const Polyhedron& a, const ConvexSolid& b);
[[nodiscard]] Expected<Nearest> nearest(const Polyhedron& a, const Polyhedron& b);

/// A solid that is compared several times, built once; what cannot be built gives its error at each use.
/// Comparing does not change it. Not for two threads at a time.
class Built {
public:
    explicit Built(const Polyhedron& solid);
    explicit Built(const ConvexSolid& solid);
    Built(Built&&) noexcept;
    ~Built();

private:
    struct Shape;
    std::unique_ptr<Shape> m_shape;
    friend Expected<Nearest> nearest(const Built& a, const Built& b);
    friend Expected<double> commonVolume(const Built& a, const Built& b, const Job& job);
    friend Expected<bool> holds(const Built& solid, const Vec3& point, double within);
};
/// As of the solids that they were built from.
[[nodiscard]] Expected<Nearest> nearest(const Built& a, const Built& b);
[[nodiscard]] Expected<double> commonVolume(const Built& a, const Built& b, const Job& job = {});
/// Whether a point lies in a solid or on its surface, to `within` mm. @error "invalid-solid"
[[nodiscard]] Expected<bool> holds(const Built& solid, const Vec3& point, double within);

} // namespace slab::occt
