#pragma once
// The 3D view without a GPU: a small depth-buffered renderer into a QImage. Same scene, camera and colours as
// Qt3D.
#include "ui/fit/look.h"
#include "ui/fit/view_camera.h"
#include <QImage>

namespace slab::ui {

/// Picture of a scene, camera.width × camera.height pixels times style.pixelRatio, antialiased.
[[nodiscard]] QImage renderScene(const Scene& scene, const ViewCamera& camera, const SceneStyle& style,
                                 const UnitStyle& units = {});

} // namespace slab::ui
