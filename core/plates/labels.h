#pragma once
#include "core/plates/outline.h"
#include "core/plates/shell.h"

namespace slab::plates {

/// Names what stands behind a side of the plate of face `f`.
/// @param marks  match mark by skin edge
[[nodiscard]] SideLabel sideLabel(const Shell& shell, int f, const std::vector<int>& marks, const Half& half,
                                  const Vec3& point);
/// Match marks by skin edge, counted from `next` on; 0 where no two plates meet.
[[nodiscard]] std::vector<int> numberMarks(const Shell& shell, int& next);
/// One entry for each skin edge of this closed skin.
void describeJoints(const Shell& shell, const std::vector<int>& marks, std::vector<JointInfo>& out);

} // namespace slab::plates
