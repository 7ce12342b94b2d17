#pragma once
// Convex cells with labelled facets, in double precision: the only solids of the live path.
#include "core/geometry/polyhedron.h"
#include "core/plates/planes.h"

namespace slab::plates {

/// A convex solid. Facet i is bounded by half-space `half` and lists its corners counter-clockwise from
/// outside in corners[begin, begin + count).
struct Cell {
    struct Facet {
        Half half;
        int begin = 0, count = 0;
    };
    std::vector<Vec3> vertices;
    std::vector<Facet> facets;
    std::vector<int> corners;
    Box3 box; ///< of the vertices; setBox() after filling a cell by hand
    [[nodiscard]] bool empty() const { return facets.empty(); }
};
using Cells = std::vector<Cell>;

/// Axis-aligned box; its six planes are added to the table.
[[nodiscard]] Cell boxCell(PlaneTable& planes, const Vec3& min, const Vec3& max);
/// What of the cell lies inside the half-space; empty if nothing with volume does.
[[nodiscard]] Cell clipped(const PlaneTable& planes, const Cell& cell, const Half& half);
/// -1: wholly inside, +1: wholly outside (touching counts), 0: the plane cuts it.
[[nodiscard]] int sideOf(const PlaneTable& planes, const Cell& cell, const Half& half);
[[nodiscard]] double volume(const Cell& cell);
[[nodiscard]] Vec3 middle(const Cell& cell); ///< mean of the vertices; inside
[[nodiscard]] inline const Box3& bounds(const Cell& cell) {
    return cell.box;
}
[[nodiscard]] Box3 bounds(const Cells& cells); ///< of at least one
void setBox(Cell& cell);
[[nodiscard]] bool boxesMeet(const Box3& a, const Box3& b, double margin = 0);
/// Half-spaces of a cell.
[[nodiscard]] std::vector<Half> halvesOf(const Cell& cell);
/// Part of the cell inside all half-spaces.
[[nodiscard]] Cell clipped(const PlaneTable& planes, const Cell& cell, const std::vector<Half>& halves);
/// Cell minus the convex set of `halves`, cut along the planes in their order; planes that do not cut add
/// nothing. Appends to `out`. Returns the volume that was taken away, 0 if they do not meet (the cell is then
/// kept whole).
double subtract(const PlaneTable& planes, const Cell& cell, const std::vector<Half>& halves, Cells& out);
/// Volume below which a cell is rounding noise, mm³.
inline constexpr double noiseVolume = 1e-7;

} // namespace slab::plates
