#pragma once
// Dimension lines: which points they name, what they measure, and what is wrong with them.
#include "core/base/finding.h"
#include "core/document/project.h"
#include "core/lines/view.h"

namespace slab {

/// The handle that a dimension line names: "hull/stem head"; "house/top/2" or "house/top/front" (list, then
/// position or name); "hull" (where the form stands); "mast/end" (a round form's far end);
/// "hull/outline/3/half_width".
/// @error "no-such-point"
[[nodiscard]] Expected<PointRef> refNamed(const Project& project, const std::string& name);
/// The name of a handle's point as dimension lines write it; the reverse of refNamed().
[[nodiscard]] std::string lineName(const Project& project, const PointRef& ref);
/// Where a point that a dimension line names stands, in body axes at build size.
/// @error "no-such-point", "broken-formula"
[[nodiscard]] Expected<Vec3> pointNamed(const Project& project, const Scope& scope, const std::string& name);
/// What a dimension line measures: mm at build size; along an axis without sign.
/// @error "no-such-point", "broken-formula", "unknown-word"
[[nodiscard]] Expected<double> lengthOf(const Project& project, const Scope& scope,
                                        const DimensionLine& line);
/// The named dimensions at one scale; what has no value is missing.
[[nodiscard]] Scope scopeOf(const Project& project, double scale);

/// Lines that point nowhere ("line-point"), drive a dimension that is not there ("line-drives") or one that
/// does not change what they measure ("line-reach").
[[nodiscard]] std::vector<Finding> lineFindings(const Project& project, const Scope& scope);

} // namespace slab
