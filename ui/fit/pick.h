#pragma once
// Picking on the CPU against the very meshes that are shown: exact, and the same with or without a GPU.
#include "ui/fit/scene.h"
#include "ui/fit/view_camera.h"

namespace slab::ui {

struct Hit {
    int item = -1;
    double distance = 0; ///< along the ray, mm
    Vec3 point = Vec3::Zero();
};

/// Front faces met by the ray, nearest first, one for each item. Back faces are not met, as they are not
/// drawn.
[[nodiscard]] std::vector<Hit> hitsAlong(const Scene& scene, const ViewCamera::Ray& ray);
/// Edge of a plate's boundary within `reach` pixels of (x, y); the nearest on screen; -1 = none.
[[nodiscard]] int edgeNear(const Plate& plate, const Vec3& shift, const ViewCamera& camera, double x,
                           double y, double reach = 9);
/// A pixel inside the view where this item is the first thing met, with some room round it where there is
/// any; nothing if it is wholly hidden or outside.
[[nodiscard]] std::optional<Vec2> visiblePixel(const Scene& scene, const ViewCamera& camera,
                                               const std::string& id);

} // namespace slab::ui
