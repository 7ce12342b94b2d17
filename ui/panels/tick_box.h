#pragma once
#include <QCheckBox>

namespace slab::ui {

/// Check box whose box is a pencil square with a tick, the same in light and dark.
class TickBox : public QCheckBox {
    Q_OBJECT
public:
    using QCheckBox::QCheckBox;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
    [[nodiscard]] bool hitButton(const QPoint& at) const override { return rect().contains(at); }
};

} // namespace slab::ui
