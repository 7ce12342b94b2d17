#pragma once
// The two materials of the 3D view, written for desktop OpenGL 3.2: flat daylight and lines of constant
// width.
#include <QColor>
#include <QVector2D>

namespace Qt3DCore {
class QNode;
}
namespace Qt3DRender {
class QMaterial;
class QParameter;
} // namespace Qt3DRender

namespace slab::ui {

/// Render passes in the order of the frame graph.
namespace pass {
inline constexpr const char* solid = "solid";   ///< opaque faces
inline constexpr const char* ground = "ground"; ///< grid lines
inline constexpr const char* glass = "glass";   ///< see-through faces, far to near, no depth written
inline constexpr const char* depth = "depth";   ///< depth of see-through faces only
inline constexpr const char* line = "line";     ///< edges, tested against depth
inline constexpr const char* top = "top";       ///< lines over everything
} // namespace pass

/// Faces lit by daylight(); alpha below 1 goes to the glass and depth passes.
[[nodiscard]] Qt3DRender::QMaterial* makeFaceMaterial(const QColor& fill, double alpha,
                                                      Qt3DCore::QNode* parent);
/// Lines `width` pixels wide with round ends. `viewport` is the shared parameter with the size in pixels.
[[nodiscard]] Qt3DRender::QMaterial* makeLineMaterial(const QColor& colour, double width,
                                                      const char* passName, Qt3DRender::QParameter* viewport,
                                                      Qt3DCore::QNode* parent);

} // namespace slab::ui
