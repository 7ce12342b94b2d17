#pragma once
// Least clearance over a whole range of motion, with a proof that it is nowhere less.
#include "core/geometry/convex.h"
#include "core/mechanisms/motion.h"
#include <limits>
#include <optional>

namespace slab {

struct SweepOptions {
    double tolerance = 1e-3; ///< of the clearance found, mm
    /// Nothing above this is of interest: the search ends once it is proven that nothing comes nearer, mm.
    double enough = std::numeric_limits<double>::infinity();
    int steps = 40000; ///< distances at most; after that `bound` tells what is proven
    /// Distances at most from when they are known to meet: how deep they do is then what was seen.
    int stepsOnceMet = 40000;
    /// Ends when something nearer than this is seen, mm; then, and above 0, no depth is worked out.
    double stop = -std::numeric_limits<double>::infinity();
};

struct SweepResult {
    double clearance = 0;   ///< least found, mm; where they meet, minus the least way out
    double bound = 0;       ///< proven: nowhere less, mm
    bool above = false;     ///< nothing comes nearer than SweepOptions::enough; clearance is what was seen
    std::vector<double> at; ///< values of the moves there
    Vec3 onMoving = Vec3::Zero(), onFixed = Vec3::Zero();
    int steps = 0; ///< distances worked out
    bool operator==(const SweepResult&) const = default;
};

/// Least distance of any piece of `moving` (body axes, every move at 0) from any piece of `fixed` over all
/// values of the moves; where pieces meet, the deepest place.
///
/// Branch and bound over boxes of values. In a box, no point moves farther than its greatest distance from
/// each axis times half the box's width, so the distance at its middle less that way is a lower bound; and a
/// plane that keeps the two apart at the middle bounds it to second order (Taylor's theorem, with the second
/// derivative of a turn at most that distance). Where pieces meet, only the first bound is used, and the
/// place to 2 % of the depth. Tubes of many metres are searched in lengths until they meet something.
/// @param moving, fixed  convex pieces; none gives `above`
[[nodiscard]] SweepResult leastOver(const Motion& motion, const std::vector<ConvexSolid>& moving,
                                    const std::vector<ConvexSolid>& fixed, const SweepOptions& options = {});

/// Values of the only move in which the pieces meet or come nearer than `wanted`, joined to ranges; to `step`
/// (radians or mm). @return nothing for a motion of several moves
[[nodiscard]] std::vector<std::pair<double, double>> rangesNearer(const Motion& motion,
                                                                  const std::vector<ConvexSolid>& moving,
                                                                  const std::vector<ConvexSolid>& fixed,
                                                                  double wanted, double step);

/// Whether any pieces are nearer than `wanted` (0: meet) with every move at its `shown`.
[[nodiscard]] bool nearerAsShown(const Motion& motion, const std::vector<ConvexSolid>& moving,
                                 const std::vector<ConvexSolid>& fixed, double wanted);

/// The turn about a move's axis that brings one set of pieces onto another of the same shapes (to 1e-6 mm),
/// in (-pi, pi]; nothing if none does, or when their middle lies on the axis.
[[nodiscard]] std::optional<double> turnBetween(const Move& move, const std::vector<ConvexSolid>& from,
                                                const std::vector<ConvexSolid>& to);

/// A ball that holds a solid wherever a motion takes it.
struct SweepBall {
    Vec3 centre = Vec3::Zero();
    double radius = 0; ///< mm
};
[[nodiscard]] SweepBall sweptBall(const Motion& motion, const ConvexSolid& solid);

/// Ring about an axis that holds a solid.
struct Ringed {
    double inner = 0, outer = 0; ///< distances from the axis, mm
    double low = 0, high = 0;    ///< along the axis from its point, mm
    bool operator==(const Ringed&) const = default;
};
[[nodiscard]] Ringed ringedBy(const ConvexSolid& solid, const Vec3& at, const Vec3& axis);
/// The ring that holds everywhere that a motion takes a solid, about its last axis (which must turn).
[[nodiscard]] Ringed sweptRing(const Motion& motion, const ConvexSolid& solid);
/// Least distance between two rings about one axis, mm: a lower bound of any turn.
[[nodiscard]] double ringGap(const Ringed& a, const Ringed& b);
/// What the rings about the second of two moves, a turn, leave in doubt.
struct RingsLeft {
    std::vector<ConvexSolid> moving, fixed; ///< pieces of which no ring proves that they keep their distance
    std::optional<double> suspect;          ///< a value of the first move at which rings come nearer
};
/// @param wanted  mm, above 0
/// @return everything, where there are not two moves of which the second turns
[[nodiscard]] RingsLeft leftByRings(const Motion& motion, const std::vector<ConvexSolid>& moving,
                                    const std::vector<ConvexSolid>& fixed, double wanted);

} // namespace slab
