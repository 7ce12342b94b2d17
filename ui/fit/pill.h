#pragma once
#include <QColor>
#include <QWidget>

namespace slab::ui {

/// A small rounded label over the 3D view. Over a native window it becomes one too, cut to its outline.
class Pill : public QWidget {
    Q_OBJECT
public:
    Pill(QWidget* parent, bool native);
    void say(const QString& text, const QColor& border);
    /// Centred at a point of the parent, kept inside it.
    void placeAt(const QPointF& centre);
    [[nodiscard]] QString text() const { return m_text; }

Q_SIGNALS:
    void clicked();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    QString m_text;
    QColor m_border;
    bool m_native;
};

} // namespace slab::ui
