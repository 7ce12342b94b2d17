#pragma once
// A trunnion as figures, and the cheeks that hold it.
#include "core/mechanisms/reading.h"
#include "core/mechanisms/trunnion_slot.h"

namespace slab::mechanisms {

constexpr double pivotBolt = 10; ///< mm (common practice for hand-moved tubes)

/// A trunnion with its formulas read.
struct TrunnionFigures {
    std::string name;
    Frame frame; ///< u ahead, w up, origin on the pivot
    TubeLoad load;
    double gap = 0;
    Move rise;
    Motion motion;      ///< the rise, and the turntable's turn where it stands on one
    int turnsWith = -1; ///< motion of that turntable
    const Turntable* table = nullptr;
    std::optional<Sheet> cheek; ///< nothing = no cheeks

    [[nodiscard]] double cheekThickness() const { return cheek ? cheek->thickness : 0; }

    [[nodiscard]] Vec3 along(double ahead) const { return frame.origin + ahead * frame.axes.col(0); }
    [[nodiscard]] ConvexSolid tube(double from, double to, double grown = 0) const {
        return makeCylinder(along(from), along(to), load.diameter / 2 + grown);
    }
};

/// Plates that the tube may pass through: those that turn with it, or those that turn with nothing.
[[nodiscard]] bool mayPass(const MechanismInput& in, const TrunnionFigures& t, const std::string& plate);
/// Two upright plates beside the tube, with the pivot's hole, on the highest thing below: the turntable's lip
/// or top, or a plate.
void addCheeks(const MechanismInput& in, Reading& read, const TrunnionFigures& t, MechanismSet& set);

} // namespace slab::mechanisms
