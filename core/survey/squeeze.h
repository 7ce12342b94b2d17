#pragma once
// When no scale fits: the body longer, wider or higher alone.
#include "core/survey/stretch.h"

namespace slab {

struct Squeeze {
    int axis = 0;      ///< 0 longer, 1 wider, 2 higher
    double factor = 1; ///< least that was found to fit, to `squeezeStep`
    double more = 0;   ///< that the body is then longer, wider or higher, mm
    bool operator==(const Squeeze&) const = default;
};
inline constexpr double squeezeMost = 1 + likenessLimit, squeezeStep = 0.002;
/// To the next tenth of a per cent, as it is told.
[[nodiscard]] double roundedUp(double factor);

/// Every direction in which the subject stretched by `squeezeMost` at most, alone, lets donor and rider fit
/// with their clearance at one scale, over all that moves; the least stretch first. Each is tried as
/// stretched() makes it.
/// @error as stretched()
[[nodiscard]] Expected<std::vector<Squeeze>> squeezes(const Project& project, double scale,
                                                      const Job& job = {});
/// What is advised, at the scale that it is advised for, as one edit.
[[nodiscard]] Edit takeAdvice(const Evaluation& made, const Squeeze& advice, double scale);

/// "Widened alone by 6 % (42 mm) at 0.42, the shell would clear donor and rider."
/// or that no direction alone does.
[[nodiscard]] std::vector<std::string> squeezeWords(const std::vector<Squeeze>& found, double scale,
                                                    const UnitStyle& units);

} // namespace slab
