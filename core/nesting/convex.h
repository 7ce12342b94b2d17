#pragma once
// Convex pieces: what the no-fit polygons are built from.
#include "core/geometry/polygon.h"
#include <limits>
#include <vector>

namespace slab::nesting {

/// A plain point for the inner loops.
struct Pt {
    double x = 0, y = 0;
    bool operator==(const Pt&) const = default;
};

/// An axis-parallel box that starts empty.
struct Extent {
    double minX = std::numeric_limits<double>::infinity(), minY = minX;
    double maxX = -minX, maxY = -minX;
    void add(Pt p);
    void add(const Extent& other);
    bool operator==(const Extent&) const = default;
};

/// A convex polygon, counter-clockwise; normals[i] is the unit outward normal of the edge from points[i].
struct ConvexPiece {
    std::vector<Pt> points;
    std::vector<Pt> normals;
    bool operator==(const ConvexPiece&) const = default;
};

/// Convex hull as a piece, collinear points dropped; empty if the points span no area.
[[nodiscard]] ConvexPiece hullPiece(std::vector<Pt> points);
[[nodiscard]] double pieceArea(const ConvexPiece& piece);
/// Turned by (cosine, sine) about the origin; `flip` first sends y to -y.
[[nodiscard]] ConvexPiece turned(const ConvexPiece& piece, double cosine, double sine, bool flip);

/// Covers a polygon with holes by convex pieces whose interiors do not meet.
///
/// Trapezoids between the heights of the corners, joined again where the union stays convex; the better of
/// two directions is taken. A region that cannot be cut cleanly (self-crossing outline) gives its convex
/// hull, which still covers it. Error of the cover: rounding only, about 1e-13 of the size.
[[nodiscard]] std::vector<ConvexPiece> convexPieces(const Polygon& polygon);

/// Sum of a and -b turned half a turn: all places of b (relative to a) where the two share interior points.
/// @source  Minkowski sum of convex polygons by merging edges in order of direction
[[nodiscard]] ConvexPiece noFitPiece(const ConvexPiece& a, const ConvexPiece& b);

} // namespace slab::nesting
