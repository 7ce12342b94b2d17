#pragma once
// Vertices and edge chains shared by the cells of one plate.
#include "core/plates/cell.h"
#include <span>

namespace slab::plates {

/// Same points once; cells' corners renumbered.
struct Welded {
    std::vector<Vec3> points;
    std::vector<std::vector<int>> ofCell; ///< for each cell: its vertices' welded numbers
};
[[nodiscard]] Welded weld(const Cells& cells, double tolerance);

/// An edge between two welded points: times a→b minus times b→a; a < b.
struct ChainEdge {
    int a = 0, b = 0, times = 0;
};
/// Directed edges on one plane.
using EdgeChain = std::vector<ChainEdge>;

/// Welded points of one plane, in the order of their place along the axis on which they reach furthest.
class SortedPoints {
public:
    SortedPoints(const Welded& welded, std::vector<int> points);
    /// Those that can lie between two points: place and number.
    [[nodiscard]] std::span<const std::pair<double, int>> between(const Vec3& a, const Vec3& b,
                                                                  double tolerance) const;

private:
    int m_axis = 0;
    std::vector<std::pair<double, int>> m_sorted;
};

/// Adds the boundary of a loop, cut at every one of the candidates that lies on it.
void addLoop(EdgeChain& chain, const Welded& welded, std::span<const int> loop,
             const SortedPoints& candidates, double tolerance);
/// Sums equal edges; opposite ones go.
void cancelOpposite(EdgeChain& chain);

/// Closed loops of a chain. At a point where loops touch, each keeps to its own region (which lies to the
/// left, seen against `normal`).
[[nodiscard]] std::vector<std::vector<int>> traceLoops(const EdgeChain& chain,
                                                       const std::vector<Vec3>& points, const Vec3& normal);
/// Vector area of a loop along `normal`.
[[nodiscard]] double loopArea(const std::vector<int>& loop, const std::vector<Vec3>& points,
                              const Vec3& normal);

} // namespace slab::plates
