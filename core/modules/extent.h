#pragma once
// How little room a set of points takes in any orientation: least box, and the way through a rectangle.
#include "core/geometry/polyhedron.h"

namespace slab {

/// A box that holds all points.
struct LeastBox {
    Vec3 size = Vec3::Zero();     ///< longest side first, mm
    Mat3 axes = Mat3::Identity(); ///< its directions in the same order, body axes
    bool operator==(const LeastBox&) const = default;
};
/// The box of least volume: for each direction of one axis the least rectangle of the projection is exact
/// (rotating calipers), the direction itself is searched from the hull's face normals and refined.
/// @source  H. Freeman, R. Shapira (1975): a least rectangle has a side along a side of the hull;
///          J. O'Rourke (1985) for the box, which may have no face flush with the hull
[[nodiscard]] LeastBox leastBox(const std::vector<Vec3>& points);

/// How something passes a rectangle, moved straight through it.
struct Passing {
    double margin =
        0; ///< mm to spare in the tighter of both directions, all in all; below 0 it does not pass
    Vec2 needs = Vec2::Zero();   ///< size of its box seen along the way, mm
    Vec3 way = Vec3::UnitX();    ///< direction of travel, body axes
    Vec3 across = Vec3::UnitY(); ///< direction that lies along the opening's width
    bool operator==(const Passing&) const = default;
};
/// The orientation with the greatest margin in an opening of that width and height.
///
/// For a given way the turn of the projection is exact: between two directions of the hull's sides both
/// extents are sinusoids and bulge outward, so the best turn has a side flush or both margins alike. The way
/// itself is searched from the hull's normals, its edges and evenly spread directions, and refined to 1e-6
/// rad: never better than the truth, and exact for prisms along their axis.
[[nodiscard]] Passing bestPassing(const std::vector<Vec3>& points, double width, double height);

/// Does a rectangle p × q lie in one of P × Q at some angle?
/// @source  W. B. Carver, solution of problem E 1225, American Mathematical Monthly 64 (1957): with p ≥ q and
///          P ≥ Q, either p ≤ P and q ≤ Q, or p > P, q ≤ Q and
///          Q ≥ (2pqP + (p² − q²) √(p² + q² − P²)) / (p² + q²)
[[nodiscard]] bool rectangleFits(double p, double q, double P, double Q);

} // namespace slab
