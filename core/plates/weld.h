#pragma once
// Vertices and edge chains shared by the cells of one plate.
#include "core/plates/cell.h"
#include <algorithm>
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
    struct Entry {
        double place = 0;
        int number = 0;
        double across = 0; ///< place along a second axis
        bool operator<(const Entry& other) const {
            return place != other.place ? place < other.place : number < other.number;
        }
    };
    SortedPoints(const Welded& welded, const std::vector<int>& points);
    /// Calls visit(number) for those that can lie in the box between two points.
    template <class Visit>
    void between(const Vec3& a, const Vec3& b, double tolerance, Visit visit) const {
        const auto [low, high] = std::minmax(a[m_axis], b[m_axis]);
        const auto [near, far] = std::minmax(a[m_across], b[m_across]);
        const double least = near - tolerance, most = far + tolerance, last = high + tolerance;
        auto e = std::lower_bound(m_sorted.begin(), m_sorted.end(), low - tolerance,
                                  [](const Entry& entry, double place) { return entry.place < place; });
        for (; e != m_sorted.end() && e->place <= last; ++e)
            if (e->across >= least && e->across <= most) visit(e->number);
    }

private:
    int m_axis = 0, m_across = 1;
    std::vector<Entry> m_sorted;
};

/// Adds the boundary of a loop.
void addLoop(EdgeChain& chain, std::span<const int> loop);
/// Sums equal edges; opposite ones go.
void cancelOpposite(EdgeChain& chain);
/// The same edges, cut at every one of the candidates that lies on them.
[[nodiscard]] EdgeChain cutAtPoints(const EdgeChain& chain, const Welded& welded,
                                    const SortedPoints& candidates, double tolerance);

/// Closed loops of a chain. At a point where loops touch, each keeps to its own region (which lies to the
/// left, seen against `normal`).
[[nodiscard]] std::vector<std::vector<int>> traceLoops(const EdgeChain& chain,
                                                       const std::vector<Vec3>& points, const Vec3& normal);
/// Vector area of a loop along `normal`.
[[nodiscard]] double loopArea(const std::vector<int>& loop, const std::vector<Vec3>& points,
                              const Vec3& normal);

} // namespace slab::plates
