#pragma once
// Vertices and edge chains shared by the cells of one plate.
#include "core/plates/cell.h"
#include <map>

namespace slab::plates {

/// Same points once; cells' corners renumbered.
struct Welded {
    std::vector<Vec3> points;
    std::vector<std::vector<int>> ofCell; ///< for each cell: its vertices' welded numbers
};
[[nodiscard]] Welded weld(const Cells& cells, double tolerance);

/// Directed edges on one plane, opposite ones cancelled.
using EdgeChain = std::map<std::pair<int, int>, int>; ///< a < b -> times a→b minus times b→a

/// Adds the boundary of a loop, cut at every welded point that lies on it.
void addLoop(EdgeChain& chain, const Welded& welded, const std::vector<int>& loop, double tolerance);

/// Closed loops of a chain. At a point where loops touch, each keeps to its own region (which lies to the
/// left, seen against `normal`).
[[nodiscard]] std::vector<std::vector<int>> traceLoops(const EdgeChain& chain,
                                                       const std::vector<Vec3>& points, const Vec3& normal);
/// Vector area of a loop along `normal`.
[[nodiscard]] double loopArea(const std::vector<int>& loop, const std::vector<Vec3>& points,
                              const Vec3& normal);

} // namespace slab::plates
