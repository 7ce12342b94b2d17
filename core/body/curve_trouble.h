#pragma once
// What curves do wrong to an outline that is sound without them, and what to do about it.
#include "core/body/outline.h"
#include "core/document/project.h"

namespace slab {

/// What is wrong with an outline once its curves are drawn; the empty code = nothing.
struct CurveTrouble {
    std::string code, message, remedy;
    std::string field; ///< "curves/1", "curves/1/through/0"
};
/// @param full  with the facets of all curves
/// @param arcs  as many as curves, in their order
/// @error codes of troubleOf()
[[nodiscard]] CurveTrouble curveTroubleOf(const Corners& full, const Corners& plain,
                                          const std::vector<Arc>& arcs, const std::vector<Curve>& curves);
/// Where the half width falls below zero: "half-width-negative".
[[nodiscard]] CurveTrouble halfTroubleOf(const Corners& full, const Corners& plain,
                                         const std::vector<Arc>& arcs, const std::vector<Curve>& curves);

} // namespace slab
