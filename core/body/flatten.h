#pragma once
// Traced corners moved as little as can be, so that every face becomes flat.
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <vector>

namespace slab {

struct FlattenWish {
    std::vector<double> weights; ///< one for each corner, > 0; empty = 1 each
    std::vector<bool> pinned;    ///< corners that stay to the bit; empty = none
    bool symmetric = false;      ///< corners that mirror each other in y = 0 go on doing so to the bit
    double most = 0.05;          ///< greatest move of a corner, in sizes of the whole
};
struct Flattened {
    std::vector<Vec3> corners;
    double move = 0; ///< greatest move of a corner, mm
    int corner = -1; ///< the one that moves so far; -1 = none moves
    std::vector<int> held{}; ///< faces whose corners are all pinned, index in `faces`
};

/// Minimises Σ weight |move|² while every face's corners lie in one plane.
///
/// Sequential quadratic programming with the faces' planes as unknowns beside the corners: each round solves
/// the problem with its constraints made linear. Faces come out planar to better than 1e-9 of the size.
/// @param faces  corner indices; a face whose corners are all pinned cannot be helped and is left alone, see `held`
/// @source  Nocedal and Wright, "Numerical Optimization", ch. 18 (SQP); the regularised system is
///          quasidefinite, so that it can be factored in any order (Vanderbei 1995)
/// @error "flatten-far" when a corner would move further than `most`; "flatten-failed" when the rounds do not
///        settle; "flatten-weight" for a weight that is not greater than zero
[[nodiscard]] Expected<Flattened> flattened(const std::vector<Vec3>& corners,
                                            const std::vector<std::vector<int>>& faces,
                                            const FlattenWish& wish = {});

/// How far a face's corners stand off the plane that fits them best (total least squares), mm.
[[nodiscard]] double offPlane(const std::vector<Vec3>& corners, const std::vector<int>& face);

} // namespace slab
