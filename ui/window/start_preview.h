#pragma once
#include "core/board/board.h"
#include <QFrame>
#include <QPixmap>

namespace slab::ui {

/// A ready body drawn small: its elevations round donor and rider.
class StartPreview : public QFrame {
    Q_OBJECT
public:
    explicit StartPreview(QWidget* parent = nullptr);
    void draw(BoardScene scene); ///< side, front and plan, in one scale
    /// The side elevation alone. @param size  px; @param ratio  device pixels to one px
    [[nodiscard]] static QPixmap icon(const BoardScene& scene, QSize size, double ratio);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    BoardScene m_scene;
};

} // namespace slab::ui
