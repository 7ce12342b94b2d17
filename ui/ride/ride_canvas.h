#pragma once
#include "ui/ride/ride_ink.h"
#include <QWidget>
#include <functional>

namespace slab::ui {

/// A drawing that is painted by a function; what it marks can be pointed at and clicked.
class RideCanvas : public QWidget {
    Q_OBJECT
public:
    using Painter = std::function<void(QPainter&, const QRectF&, std::vector<RideSpot>&)>;
    explicit RideCanvas(const QString& name, QWidget* parent = nullptr);
    void setPainter(Painter painter) { m_paint = std::move(painter); }
    /// What stands in it, for those who hear the window.
    void setWords(const QString& words) { setAccessibleDescription(words); }
    [[nodiscard]] const std::vector<RideSpot>& spots() const { return m_spots; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {220, 180}; }

Q_SIGNALS:
    void pointed(int row);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

private:
    [[nodiscard]] const RideSpot* spotAt(const QPointF& px) const;
    Painter m_paint;
    std::vector<RideSpot> m_spots;
};

} // namespace slab::ui
