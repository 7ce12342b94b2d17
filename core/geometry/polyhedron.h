#pragma once
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <string>
#include <vector>

namespace slab {

/// One planar face: loops of vertex indices; the first is the outer one, counter-clockwise seen from outside;
/// the others are holes, clockwise.
struct PolyFace {
    Plane plane;
    std::vector<std::vector<int>> loops;
    std::string name; ///< "side" or "form/side"; may be empty
    bool operator==(const PolyFace&) const = default;
};

/// A closed solid bounded by planar faces, or an open shell when faces are missing.
struct Polyhedron {
    std::vector<Vec3> vertices;
    std::vector<PolyFace> faces;
    bool operator==(const Polyhedron&) const = default;
};

struct Box3 {
    Vec3 min = Vec3::Zero(), max = Vec3::Zero();
    [[nodiscard]] Vec3 size() const { return max - min; }
    bool operator==(const Box3&) const = default;
};
/// The box that holds two boxes.
[[nodiscard]] inline Box3 united(const Box3& a, const Box3& b) {
    return {a.min.cwiseMin(b.min), a.max.cwiseMax(b.max)};
}

/// Volume by the divergence theorem, mm³; positive when faces look outward. Needs a closed solid.
[[nodiscard]] double volume(const Polyhedron& solid);
[[nodiscard]] double surfaceArea(const Polyhedron& solid);
[[nodiscard]] double faceArea(const Polyhedron& solid, const PolyFace& face);
[[nodiscard]] Box3 bounds(const Polyhedron& solid);
[[nodiscard]] Polyhedron scaled(Polyhedron solid, double factor);
/// Moved by rotation then translation; `mirrorY` first reflects in the plane y = 0 (faces are turned outward
/// again).
[[nodiscard]] Polyhedron moved(Polyhedron solid, const Mat3& rotation, const Vec3& translation,
                               bool mirrorY = false);
/// Closed, each edge shared by exactly two faces in opposite directions, faces planar within `tolerance` mm.
[[nodiscard]] Expected<void> checkClosed(const Polyhedron& solid, double tolerance = 1e-6);
/// Triangle soup for pictures: 3 points per triangle, counter-clockwise from outside; holes respected.
[[nodiscard]] std::vector<Vec3> triangulate(const Polyhedron& solid);
[[nodiscard]] std::vector<Vec3> triangulateFace(const Polyhedron& solid, const PolyFace& face);
/// `point`, taken to lie in the face's plane, is in its region or on its border (within eps, mm).
[[nodiscard]] bool faceContains(const Polyhedron& solid, const PolyFace& face, const Vec3& point,
                                double eps = 0);
/// Even-odd ray test.
[[nodiscard]] bool contains(const Polyhedron& solid, const Vec3& point);

/// Corner-and-edge helper for a box between two points. Faces are named front(+x) back port(+y) starboard top
/// bottom.
[[nodiscard]] Polyhedron makeBox(const Vec3& min, const Vec3& max);

} // namespace slab
