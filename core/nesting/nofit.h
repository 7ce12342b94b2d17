#pragma once
// No-fit polygons: where one part may not stand relative to another.
#include "core/nesting/shape.h"
#include <atomic>
#include <memory>

namespace slab::nesting {

/// Points p with x·p < c are inside this edge.
struct Half {
    double x = 0, y = 0, c = 0;
};
struct Segment {
    Pt a, b;
};

/// All places of b relative to a where they share interior points, as overlapping convex pieces, and its
/// border.
///
/// The border is kept as loose segments, so that exact fits (a slot just as wide as the part, a single point)
/// are not lost as they would be in a union of polygons.
struct NoFit {
    struct Piece {
        int first = 0, count = 0; ///< in `halves`
        Extent box;
    };
    std::vector<Half> halves;
    std::vector<Piece> pieces;
    std::vector<Segment> border;
    std::vector<double> inverse; ///< 1 / length² of each border segment; 0 for a point
    Extent box;
};

[[nodiscard]] NoFit makeNoFit(const Oriented& a, const Oriented& b, double eps);

/// Of the same two parts with their roles exchanged.
[[nodiscard]] NoFit mirrored(const NoFit& nofit);

/// Of the same two parts, both turned by so many quarter turns.
[[nodiscard]] NoFit quarterTurned(const NoFit& nofit, int quarters);

/// Stretch [t0, t1] of the segment that lies deeper than eps inside a piece moved by `at`; false if none.
[[nodiscard]] bool insideStretch(const NoFit& nofit, const NoFit::Piece& piece, Pt at, const Segment& s,
                                 double eps, double& t0, double& t1);

/// True if p (relative to a) lies deeper than eps in any piece.
[[nodiscard]] bool blocked(const NoFit& nofit, Pt p, double eps);
/// Least shift that parts the two when b stands at p: distance to the border; 0 if they are apart.
[[nodiscard]] double penetration(const NoFit& nofit, Pt p, double eps);
/// The point of the border nearest to p.
[[nodiscard]] Pt nearestExit(const NoFit& nofit, Pt p);

/// No-fit polygons by pair, made when first asked for; safe to use from several threads.
class NoFitCache {
public:
    NoFitCache(const Library& library);
    ~NoFitCache();
    NoFitCache(const NoFitCache&) = delete;
    NoFitCache& operator=(const NoFitCache&) = delete;
    /// Of oriented parts a (fixed) and b (moving).
    [[nodiscard]] const NoFit& get(int a, int b);

private:
    [[nodiscard]] NoFit make(int a, int b);

    const Library& m_library;
    std::size_t m_count;
    std::vector<std::atomic<const NoFit*>> m_pairs;
};

} // namespace slab::nesting
