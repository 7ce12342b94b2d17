#pragma once
// What is seen from the finished thing. Figures in mm, kg, radians, N, mm/s; body axes (z = 0 is the ground).
#include "core/sight/sight.h"
#include <string>

namespace slab::trial {

// -------------------------------------------------------------------------------------------

struct OpeningSeen {
    std::string opening, plate;
    bool ahead = false; ///< straight ahead lies over or under it: the two figures below count
    double raise = 0;   ///< how far it would have to move up to lie at eye level, mm; below 0 down, 0 it does
    double lower = 0; ///< how far its lower edge would have to come down to see the ground that is wanted, mm
    double field = 0; ///< open horizon that would be lost without it, radians
    Vec3 at = Vec3::Zero();
    bool operator==(const OpeningSeen&) const = default;
};
/// Directions are counted from the way ahead towards port. Ground and horizon ahead are seen with both eyes,
/// the map with one between them.
struct View {
    std::string who; ///< "rider"
    Vec3 eye = Vec3::Zero();
    sight::SeenAhead ahead; ///< nearest ground over the way ahead, from below the eye, along the way
    double beyondNose = 0;  ///< the same from the body's front, mm; infinite if none is seen
    double wanted = 0;      ///< from the body's front, mm
    double stops = 0;       ///< way to stop from the speed that is ridden, mm
    sight::HorizontalField field;
    double wantedField = 0; ///< to either side, radians
    sight::BlindMap map;
    std::vector<OpeningSeen> openings;
    bool operator==(const View&) const = default;
};

} // namespace slab::trial
