#pragma once
// What the 3D view shows of the session: how the builder looks at it, and what is chosen.
#include "ui/fit/fit_controls.h"
#include "ui/fit/scene.h"
#include "ui/session/session.h"

namespace slab::ui {

[[nodiscard]] SceneOptions sceneOptions(const Session& session, const FitState3d& state);

} // namespace slab::ui
