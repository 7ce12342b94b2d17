#pragma once
// What making the forms and looking at their curves have in common.
#include "core/body/reader.h"

namespace slab {

/// Where a form stands.
struct Standing {
    Mat3 rotation = Mat3::Identity();
    Vec3 translation = Vec3::Zero();
};
[[nodiscard]] Standing readPlacement(FormReader& reader, const Placement& at);

/// "name", or "name port" and "name starboard".
[[nodiscard]] std::string handName(const Form& form, bool other);

/// Curves of a taper's top in proportion to the chords, so that facets of like outlines stay flat; what they
/// miss becomes the larger of both ends in `fits`.
[[nodiscard]] std::vector<Arc> topArcs(std::vector<Arc> arcs, const Corners& base, const Corners& top,
                                       std::vector<CurveFit>& fits);

} // namespace slab
