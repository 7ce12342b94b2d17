#pragma once
// What the distance and depth searches see of a convex solid: its core, the radius being taken off
// afterwards.
#include "core/geometry/convex.h"
#include <array>
#include <optional>

namespace slab {

/// Hull of points, or a cylinder with its full radius.
struct Core {
    const ConvexSolid& solid;
    double radius = 0; ///< of the cylinder
    double margin = 0; ///< taken off the distance: radius of a rounded hull
    Vec3 axis = Vec3::Zero();

    explicit Core(const ConvexSolid& s) : solid(s) {
        if (s.kind == ConvexSolid::Kind::cylinder && s.points.size() == 2) {
            radius = s.radius;
            axis = (s.points[1] - s.points[0]).stableNormalized();
        } else {
            margin = s.radius;
        }
    }
    [[nodiscard]] bool isCylinder() const { return radius > 0; }
    [[nodiscard]] Vec3 middle() const { return (solid.points.front() + solid.points.back()) / 2; }

    /// A point of the core farthest along d (d need not be of unit length).
    [[nodiscard]] Vec3 support(const Vec3& d) const {
        const Vec3* best = &solid.points[0];
        double reach = d.dot(*best);
        for (const Vec3& p : solid.points) {
            const double r = d.dot(p);
            if (r > reach) {
                reach = r;
                best = &p;
            }
        }
        if (!isCylinder()) return *best;
        Vec3 across = d - d.dot(axis) * axis;
        across -=
            across.dot(axis) * axis; // again: what rounding left along the axis, when d is nearly along it
        const double length = across.norm();
        return length > 1e-14 * d.norm() ? Vec3(*best + across * (radius / length)) : *best;
    }
    /// Greatest d·x over the core.
    [[nodiscard]] double reach(const Vec3& d) const { return d.dot(support(d)); }
};

struct CoreDistance {
    double distance = 0;
    Vec3 onA = Vec3::Zero(), onB = Vec3::Zero();
    bool meets = false;
    double gap = 0; ///< squared distance less its lower bound: how sure the distance is
    int steps = 0;
};
[[nodiscard]] CoreDistance coreDistance(const Core& a, const Core& b);

/// Directions that can bound a Minkowski difference: the faces and edges of a core, whatever its place.
struct Directions {
    std::vector<Vec3> normals, edges;
};
/// @param hull  of the core's points; unused for a cylinder
[[nodiscard]] Directions directionsOf(const Core& core, const Polyhedron& hull);

/// Least way out of two cores that meet: the least overlap over all directions, which is reached on a face of
/// the Minkowski difference.
[[nodiscard]] double coreDepth(const Core& a, const Directions& da, const Core& b, const Directions& db);

/// A solid that is compared often: its hull and directions are found once, when first needed. Not for two
/// threads.
class Prepared {
public:
    explicit Prepared(const ConvexSolid& solid) : m_core(solid) {}
    [[nodiscard]] const Core& core() const { return m_core; }
    [[nodiscard]] const ConvexSolid& solid() const { return m_core.solid; }
    [[nodiscard]] const Polyhedron& hull();
    [[nodiscard]] const Directions& directions();
    /// Takes the directions of the same solid at another place.
    void takeDirections(Prepared& other) { m_directions = other.directions(); }
    /// This is `home` turned (and moved): its directions are that one's, turned, once they are needed.
    /// @param home  must live as long as this
    void turnedFrom(Prepared& home, const Mat3& turn) {
        m_home = &home;
        m_turn = turn;
    }

private:
    Core m_core;
    std::optional<Polyhedron> m_hull;
    std::optional<Directions> m_directions;
    Prepared* m_home = nullptr;
    Mat3 m_turn = Mat3::Identity();
};
/// @param deep  false: where the cores meet, the depth is left out (0) and is not worked out
[[nodiscard]] Nearest nearest(Prepared& a, Prepared& b, bool deep = true);

} // namespace slab
