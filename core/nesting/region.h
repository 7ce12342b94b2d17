#pragma once
// The feasible region of one part among placed ones, and its best corner.
#include "core/nesting/nofit.h"
#include <optional>

namespace slab::nesting {

/// Reference positions that keep a part on its sheet.
struct Window {
    double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
};
/// A placed part as seen by the moving one.
struct Obstacle {
    const NoFit* nofit = nullptr;
    Pt at;
};
/// What the best corner is: the least along `primary`, then along `second`.
struct Pull {
    Pt primary{1, 0}, second{0, 1};
    [[nodiscard]] double key(Pt p) const { return primary.x * p.x + primary.y * p.y; }
    [[nodiscard]] double tie(Pt p) const { return second.x * p.x + second.y * p.y; }
};
struct SpotQuery {
    Window window;
    Pull pull;
    double atLeast = -std::numeric_limits<double>::infinity(); ///< known lower bound of the key
    double atMost = std::numeric_limits<double>::infinity();   ///< keys beyond are of no use
    double eps = 1e-9;
};
/// Buffers kept between calls.
struct RegionScratch {
    struct Ranked {
        Segment segment;
        double key = 0;
    };
    std::vector<Ranked> segments;
    std::vector<std::pair<double, double>> stretches;
};

/// Best feasible corner: the part touches, but does not overlap, obstacles and sheet border.
///
/// A linear pull is least at a corner of the feasible region, and every corner ends an uncovered stretch of
/// some border segment; so all stretches are cut against all pieces, in order of their key, until none can be
/// better.
[[nodiscard]] std::optional<Pt> bestSpot(const std::vector<Obstacle>& obstacles, const SpotQuery& query,
                                         RegionScratch& scratch);

} // namespace slab::nesting
