#pragma once
// A panel cut by straight lines, square through both faces, every edge remembering where it came from.
#include "core/plates/plate.h"

namespace slab::plates {

/// All points with normal · p = offset, panel coordinates; normal of unit length.
struct CutLine {
    Vec2 normal = Vec2::UnitX();
    double offset = 0; ///< mm
    [[nodiscard]] Vec2 along() const { return {-normal.y(), normal.x()}; }
    [[nodiscard]] double beyond(const Vec2& p) const { return normal.dot(p) - offset; }
    bool operator==(const CutLine&) const = default;
};

/// Where an edge of a piece came from: an edge of one of the panel's loops on that face, or a seam.
struct EdgeSource {
    int loop = 0;  ///< 0 = the boundary, n = hole n - 1, -1 = a seam
    int edge = -1; ///< of that loop's ring on that face; of a seam: its number
    auto operator<=>(const EdgeSource&) const = default;
};
struct TracedRing {
    Ring points;
    std::vector<EdgeSource> sources; ///< of the edge from point i to i + 1
};
/// Outer ring counter-clockwise, holes clockwise.
struct TracedPolygon {
    TracedRing outer;
    std::vector<TracedRing> holes;
    [[nodiscard]] double area() const; ///< mm²
};
[[nodiscard]] TracedPolygon tracedFace(const Panel& panel, bool inside);

/// The parts beyond the line (`above`) or before it. A corner within 1e-7 mm of the line lies on it; an edge
/// that runs along the line stays what it was. The two sides' areas add up to the whole but for rounding.
[[nodiscard]] std::vector<TracedPolygon> partOf(const TracedPolygon& polygon, const CutLine& line, bool above,
                                                int seam);

/// One piece of a panel: what is left on either face.
struct CutPiece {
    TracedPolygon outer;
    std::optional<TracedPolygon> inner;
    std::vector<Ring> stands{}; ///< where other plates stand on the inside face, of the whole panel
};
struct CutPieces {
    std::vector<CutPiece> pieces;
    double lost = 0; ///< mm²: slivers of the inside face with no outside face over them
};
[[nodiscard]] CutPiece wholePiece(const Panel& panel);
/// Both sides of the line, those before it first; the piece itself if the line misses it.
[[nodiscard]] CutPieces cutPiece(const CutPiece& piece, const CutLine& line, int seam);

/// The outside face's share of the line, as intervals along CutLine::along().
[[nodiscard]] std::vector<std::pair<double, double>> crossings(const TracedPolygon& face,
                                                               const CutLine& line);

} // namespace slab::plates
