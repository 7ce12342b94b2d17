#pragma once
#include "core/picture/svg_outline.h"
#include <QPainterPath>
#include <QWidget>
#include <array>
#include <optional>
#include <vector>

namespace slab::ui {

/// Outlines of a drawing to choose from: a click takes one or leaves it. While two points are asked for,
/// clicks mark them instead, on corners where one is near.
class OutlinePreview : public QWidget {
    Q_OBJECT
public:
    explicit OutlinePreview(const std::vector<SvgChoice>& outlines, QWidget* parent = nullptr);
    void setTaken(const std::vector<bool>& taken);
    void setHovered(int index); ///< -1 = none
    /// Clicks mark two points from now on, or choose outlines again.
    void askPoints(bool on);
    /// In the drawing's coordinates; empty until both are marked.
    [[nodiscard]] std::optional<std::array<Vec2, 2>> points() const;
    [[nodiscard]] QPointF toScreen(const Vec2& at) const; ///< of the drawing's coordinates
    [[nodiscard]] QSize sizeHint() const override { return {460, 400}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {260, 220}; }

Q_SIGNALS:
    void clicked(int index);
    void marked(); ///< a point

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    [[nodiscard]] QTransform toWidget() const;
    [[nodiscard]] int outlineAt(const QPointF& px) const;
    [[nodiscard]] Vec2 cornerNear(const QPointF& px) const;

    std::vector<QPainterPath> m_paths;
    std::vector<Vec2> m_corners;
    std::vector<bool> m_taken;
    QRectF m_extent;
    std::vector<Vec2> m_points;
    int m_hovered = -1;
    bool m_asking = false;
};

} // namespace slab::ui
