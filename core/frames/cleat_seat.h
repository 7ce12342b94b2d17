#pragma once
// The inside corner of a joint, and what stands along it.
#include "core/frames/cleats.h"
#include <optional>

namespace slab::cleats {

/// Stretch along the corner line, mm from where the joint's skin edge begins.
struct Stretch {
    double from = 0, to = 0;
    [[nodiscard]] double length() const { return to - from; }
};

/// Where both inside faces of a joint meet, with the section that is laid there.
struct Seat {
    const Plate* a = nullptr; ///< x of the section runs along its inside face
    const Plate* b = nullptr;
    int mark = 0;
    Vec3 corner = Vec3::Zero(); ///< beside the beginning of the skin's edge
    Vec3 along = Vec3::UnitX(), x = Vec3::UnitY(), y = Vec3::UnitZ();
    double length = 0, dihedral = 0;         ///< of the skin's edge
    double startA = 0, startB = 0;           ///< from the corner to where each face begins: an inner step, mm
    bool outsideA = false, outsideB = false; ///< it is the plate's outside face that is glued to
    CleatSection section;
    [[nodiscard]] Vec3 at(const Vec2& p, double s) const {
        return corner + along * s + x * p.x() + y * p.y();
    }
    /// Along the second plate's inside face, away from the corner.
    [[nodiscard]] Vec2 wayB() const;
    [[nodiscard]] ConvexSolid stick(const Stretch& s) const;
    /// What lies glued on one of the plates, in that plate's coordinates, counter-clockwise.
    [[nodiscard]] Ring glued(const Stretch& s, bool second, double inset = 0) const;
};

/// The seat of a joint; nothing where its plates are missing or its inside corner is none below 180°.
/// @param swapped  the width lies on the joint's second plate
[[nodiscard]] std::optional<Seat> seatOf(const JointInfo& joint, const PlateSet& set, bool swapped);

/// A convex solid that may stand in the way; its faces are found when they are first asked for.
struct Obstacle {
    explicit Obstacle(const ConvexSolid& solid) : points(solid.points), box(bounds(solid)) {}
    std::vector<Vec3> points;
    Box3 box;
    std::vector<Plane> faces;
};
/// The section pushed along a range.
struct Swept {
    Swept(const Seat& of, const Stretch& along)
        : seat(of), range(along), whole(of.stick(along)), box(bounds(whole)) {}
    const Seat& seat;
    Stretch range;
    ConvexSolid whole;
    Box3 box;
};

/// Where a convex obstacle stands in the section pushed along the range; touching is no standing.
[[nodiscard]] std::optional<Stretch> takenBy(const Swept& swept, Obstacle& obstacle);
/// Where the section comes nearer to a convex solid than `clearance`.
[[nodiscard]] std::optional<Stretch> nearTo(const Swept& swept, const ConvexSolid& solid, double clearance);
/// Where the inside face of one plate does not lie under the section: beyond its ends, at openings.
void addUncovered(const Seat& seat, const Stretch& range, bool second, std::vector<Stretch>& taken);

/// What `taken` leaves of the range.
[[nodiscard]] std::vector<Stretch> freeIn(const Stretch& range, std::vector<Stretch> taken);

} // namespace slab::cleats
