#pragma once
#include "ui/session/session.h"
#include <QWidget>

namespace slab {
struct MechanismWords;
}

namespace slab::ui {

/// The 3D view: plates, donor, rider, tight and hitting pairs. Shows the session; a click selects.
///
/// Draws no title: the frame around it does.
class FitView : public QWidget {
    Q_OBJECT
public:
    explicit FitView(Session* session, QWidget* parent = nullptr);
    ~FitView() override;

    /// False where there is no OpenGL 3.2: the same scene is painted without it.
    [[nodiscard]] bool usesOpenGl() const;
    /// What takes mouse and keys: a QWindow with OpenGL, else a QWidget.
    [[nodiscard]] QObject* surface() const;
    /// A pixel of surface() where a click selects this plate or solid; nothing if it is hidden.
    [[nodiscard]] std::optional<QPointF> pixelOf(const QString& id) const;
    /// What the tool in hand waits for; empty = nothing.
    [[nodiscard]] QString prompt() const;
    /// The pixel of surface() under which a place of the body lies, hidden or not.
    [[nodiscard]] QPointF pixelAt(const Vec3& place) const;
    /// Clicks put this in from now on.
    void takeMechanism(const MechanismWords* kind);
    /// Is everything in the picture?
    [[nodiscard]] bool showsAll() const;
    /// What is shown now, without the window: for pictures and tests.
    [[nodiscard]] QImage picture(const QSize& size) const;

Q_SIGNALS:
    void formWanted(); ///< there is none yet

public Q_SLOTS:
    void fitToView();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    struct Private;
    std::unique_ptr<Private> m;
};

} // namespace slab::ui
