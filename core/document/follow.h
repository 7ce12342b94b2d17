#pragma once
#include "core/document/project.h"

namespace slab::detail {

/// Lets every plate name and pattern of `after` follow, where forms or sides were renamed since `before`.
///
/// A pattern with * that would match other plates than before is rewritten if its own words can be, else
/// joined by the new name. @pre both have the same forms with the same sides in the same order
void followPlates(const Project& before, Project& after);

} // namespace slab::detail
