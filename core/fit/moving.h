#pragma once
// What moves with mechanisms, and what is bought for them, against donor and rider: at rest and afloat.
#include "core/fit/pieces.h"
#include "core/mechanisms/sweep_things.h"

namespace slab {

/// Things that the fit of plates as shown leaves out: what moves, and bought or found parts that stand still.
class MovingThings {
public:
    /// @param plates  as cut, every move at 0
    MovingThings(const MechanismSet& set, const PlateSet& plates);

    /// One pair over the whole range.
    struct Found {
        FitPair pair;      ///< `plate` names the thing; points where it comes nearest
        std::string words; ///< the values of its moves there: "raised -10.0°"; empty if it does not move
    };
    /// Least clearance to one solid where it stands, of each thing that comes nearer than its clearance or
    /// than `least`, mm.
    [[nodiscard]] std::vector<Found> nearTo(const FitSolid& solid, double least) const;
    /// Whether any comes nearer to the solid than wanted, but for those in `except` (by name).
    [[nodiscard]] bool tooNear(const FitSolid& solid, const std::vector<std::string>& except) const;
    [[nodiscard]] bool empty() const { return m_things.empty(); }

private:
    std::vector<mechanisms::Thing> m_things;
    std::vector<Motion> m_motions; ///< one each
};

/// The nearest that any moving thing comes to a solid, if that is nearer than `least`, mm.
[[nodiscard]] std::optional<FitPair> nearestMoving(const MechanismSet& set,
                                                   const std::vector<FitSolid>& solids,
                                                   const PlateSet& plates, double least);

} // namespace slab
