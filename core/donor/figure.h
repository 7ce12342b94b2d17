#pragma once
// One person's sizes, as the document gives them.
#include "core/donor/reading.h"
#include "core/donor/rider.h"
#include <optional>

namespace slab {

/// How a person is called in findings, and where it stands in the document.
struct Whose {
    std::string words; ///< "The rider", "Passenger child"
    std::string place; ///< "/rider", "/passengers/0"
};
struct BodySizes {
    RiderFigures figures;
    BodyTable table;
    std::string source;
};
/// Percentile or stature, single figures and own mass read. What lies outside the table is held at its end
/// and told; own figures that pile up at one extreme are told.
/// @return nothing for the table "none", and for one that is not known, which is told
[[nodiscard]] std::optional<BodySizes> sizesOf(const Figure& figure, const Whose& whose, Reading& reading);

/// A figure within limits; else the nearest, told as `rider-posture`.
struct Limits {
    double low = 0, high = 0;
    Kind kind = Kind::angle;
};
[[nodiscard]] double heldWithin(const Text& text, const char* field, const Limits& limits, const Whose& whose,
                                Reading& reading);

} // namespace slab
