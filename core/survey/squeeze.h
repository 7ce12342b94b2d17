#pragma once
// When no scale fits: one direction of the body alone made more or less.
#include "core/survey/stretch.h"

namespace slab {

struct Squeeze {
    int axis = 0;      ///< 0 length, 1 width, 2 height
    double factor = 1; ///< nearest to 1 that was found to do, to `squeezeStep`; below 1 it is made less
    double more = 0;   ///< that the body is then longer, wider or higher, mm; below 0 less
    double scale = 1;  ///< at which it is meant
    std::vector<std::string> but{}; ///< what is worth having and does not hold then, in words
    bool operator==(const Squeeze&) const = default;
};
/// A direction is made more by this factor at most, or less by its inverse.
inline constexpr double squeezeMost = 1 + likenessLimit, squeezeStep = 0.002;
/// Away from 1 to the next tenth of a per cent, as it is told.
[[nodiscard]] double roundedOff(double factor);

/// Every direction that, changed alone, makes everything hold at one scale: donor and rider fit with their
/// clearance over all that moves, and route and ride too. The least change first; each is tried as
/// stretched() makes it.
/// @error as stretched()
[[nodiscard]] Expected<std::vector<Squeeze>> squeezes(const Project& project, double scale,
                                                      const Job& job = {});
/// What is advised, at the scale that it is advised for, as one edit.
[[nodiscard]] Edit takeAdvice(const Evaluation& made, const Squeeze& advice);

/// "Wider alone by 6 % (42 mm) at 0.42, everything would hold."
/// or that no direction alone does at these scales.
[[nodiscard]] std::vector<std::string>
squeezeWords(const std::vector<Squeeze>& found, const std::vector<double>& scales, const UnitStyle& units);

} // namespace slab
