#pragma once
// An endless belt round a set of wheels, in the side view: its path, its length, a whole number of links.
#include "core/base/error.h"
#include "core/geometry/polygon.h"

namespace slab {

/// A wheel as the belt's middle line sees it.
struct BeltCircle {
    Vec2 centre = Vec2::Zero(); ///< mm
    double radius = 0;          ///< of the middle line round it: wheel radius + half the belt's thickness, mm
    bool outside = false;       ///< presses on the belt from outside, so that the belt bends back round it
    bool operator==(const BeltCircle&) const = default;
};

/// The middle line of a belt, counter-clockwise. Arc i ends where run i begins; run i ends where arc i + 1
/// begins.
struct BeltPath {
    struct Arc {
        int wheel = 0;
        Vec2 centre = Vec2::Zero();
        double radius = 0;
        double from = 0; ///< direction from the centre to where the belt meets the wheel, radians
        double sweep =
            0; ///< radians; positive counter-clockwise, negative round a wheel outside; 0 = touches
        bool operator==(const Arc&) const = default;
    };
    struct Run {
        Vec2 from = Vec2::Zero(), to = Vec2::Zero();
        bool operator==(const Run&) const = default;
    };
    /// A wheel that the belt does not touch.
    struct Off {
        int wheel = 0;
        double gap = 0; ///< between the wheel's rim and the belt, mm
        bool operator==(const Off&) const = default;
    };
    std::vector<Arc> arcs;
    std::vector<Run> runs;
    double length = 0; ///< arcs + runs, mm
    bool reordered =
        false; ///< in the listed order it would cross itself: the order round the outside is used
    std::vector<Off> off;
    bool operator==(const BeltPath&) const = default;
};

/// The taut belt. Without wheels outside it is the boundary of the convex hull of the circles, whatever the
/// order; a large wheel between small ones has two arcs. With wheels outside, tangents in the listed order.
/// @error "belt-wheels-few" (fewer than two, or all within one), "belt-wheel-size", "belt-wheels-meet" (a
///        wheel outside has no room beside its neighbour), "belt-crosses" (in the listed order the belt
///        crosses itself or a wheel; `where` = index of the wheel)
/// @source  common tangents of two circles: sin of the lean = (difference of the signed radii) / distance
[[nodiscard]] Expected<BeltPath> beltPath(const std::vector<BeltCircle>& circles);

/// Points along the middle line, no arc step wider than `step` radians; closed (the last joins the first).
[[nodiscard]] Ring beltLine(const BeltPath& path, double step);
/// Place and direction (unit vector, the way the path runs) at a distance along the path from the start of
/// run 0, mm; wraps round.
struct BeltPlace {
    Vec2 at = Vec2::Zero(), along = Vec2::UnitX();
};
[[nodiscard]] BeltPlace beltPlace(const BeltPath& path, double distance);

struct BeltLinks {
    int links = 0;
    double pitch = 0;                ///< of one link along the middle line, mm
    Vec2 moved = Vec2::Zero();       ///< of the wheel that was moved, mm
    std::vector<BeltCircle> circles; ///< with that wheel where it stands now
    BeltPath path;
    bool operator==(const BeltLinks&) const = default;
};
/// A whole number of links by moving one wheel the least way along `direction` (either way; unit vector).
/// The new length equals links × pitch within 1e-9 mm.
/// @error as beltPath; "belt-pitch" (not above 0, or longer than a third of the belt), "belt-no-links" (no
///        such place within two pitches)
[[nodiscard]] Expected<BeltLinks> linksByMoving(const std::vector<BeltCircle>& circles, double pitch,
                                                int wheel, const Vec2& direction);
/// A whole number of links, at least three, by changing the pitch the least.
/// @error as beltPath; "belt-pitch"
[[nodiscard]] Expected<BeltLinks> linksByPitch(const std::vector<BeltCircle>& circles, double pitch);
/// Away from the middle of its two neighbours in the list, unit vector: the way that a wheel tightens a belt.
[[nodiscard]] Vec2 tighteningWay(const std::vector<BeltCircle>& circles, int wheel);

} // namespace slab
