#pragma once
// The eye of the 3D view: plain figures, no graphics. View state, never part of the document.
#include "core/geometry/polyhedron.h"
#include <optional>

namespace slab::ui {

enum class Direction { side, plan, end, threeQuarter };

/// Looks at `target` from a yaw and pitch, in perspective or parallel. Lengths in mm, screen in pixels (y
/// down).
struct ViewCamera {
    Vec3 target = Vec3::Zero();
    double yaw = -1.0;        ///< radians about z; the eye stands at (cos yaw, sin yaw) from the target
    double pitch = 0.42;      ///< radians above the ground
    double distance = 4000;   ///< eye to target
    double fieldOfView = 0.5; ///< radians, over the height
    bool parallel = false;
    double width = 800, height = 600;

    [[nodiscard]] Vec3 eye() const;
    [[nodiscard]] Vec3 forward() const;
    [[nodiscard]] Vec3 right() const;
    [[nodiscard]] Vec3 up() const;
    /// mm that one pixel covers at the target.
    [[nodiscard]] double mmPerPixel() const;
    [[nodiscard]] double nearPlane() const;
    [[nodiscard]] double farPlane() const;

    /// Pixel x, y and the distance in front of the eye (negative or 0 = behind it).
    [[nodiscard]] Vec3 toScreen(const Vec3& point) const;
    struct Ray {
        Vec3 origin, direction; ///< direction of unit length
    };
    [[nodiscard]] Ray ray(double x, double y) const;

    void orbit(double dx, double dy);               ///< by a drag in pixels
    void pan(double dx, double dy);                 ///< the target plane follows the hand
    void zoomAt(double x, double y, double factor); ///< what lies under the pixel stays there
    void look(Direction direction);
    void frame(const Box3& box, double margin = 1.12); ///< fits a box, direction kept
    /// Is the whole box on the screen and in front of the eye?
    [[nodiscard]] bool sees(const Box3& box) const;
    bool operator==(const ViewCamera&) const = default;
};

/// Eased between two views (0 = from, 1 = to), the short way round.
[[nodiscard]] ViewCamera between(const ViewCamera& from, const ViewCamera& to, double share);

} // namespace slab::ui
