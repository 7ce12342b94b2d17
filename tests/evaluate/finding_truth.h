#pragma once
#include "core/evaluate/evaluate.h"

namespace slab::test {

/// What is wrong with a finding as far as it can be checked: it names things that are not there, a place that
/// the document does not have, a fit or a sheet that says otherwise, or words that are no builder's.
/// @return empty if nothing is
[[nodiscard]] std::string untruth(const Finding& finding, const Project& project,
                                  const Evaluation& evaluation);

} // namespace slab::test
