#pragma once
// Where the scene is shown: a Qt3D window where OpenGL 3.2 is there, else a painted widget. Both take the
// same calls.
#include "ui/fit/look.h"
#include "ui/fit/view_camera.h"
#include <QWidget>
#include <memory>

namespace slab::ui {

class FitCanvas {
public:
    virtual ~FitCanvas() = default;
    [[nodiscard]] virtual QWidget* widget() = 0;  ///< to be laid out
    [[nodiscard]] virtual QObject* surface() = 0; ///< gets the mouse and keys
    [[nodiscard]] virtual bool
    native() const = 0; ///< widgets over it need their own window and an outline mask
    virtual void showScene(const Scene& scene, const SceneStyle& style, const UnitStyle& units) = 0;
    virtual void showCamera(const ViewCamera& camera) = 0;
};

/// True if a desktop OpenGL 3.2 context can be made current here and windows can be embedded.
/// SLABSIDE_VIEW=painter in the environment says no.
[[nodiscard]] bool canUseOpenGl();
[[nodiscard]] std::unique_ptr<FitCanvas> makeGlCanvas(QWidget* parent);
[[nodiscard]] std::unique_ptr<FitCanvas> makePaintCanvas(QWidget* parent);

} // namespace slab::ui
