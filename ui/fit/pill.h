#pragma once
#include <QColor>
#include <QObject>
#include <QRect>
#include <memory>

class QWidget;
class QWindow;

namespace slab::ui {

/// A small rounded label over the 3D view: a widget over a painted view, a window cut to its outline over a
/// window (widgets do not show over that).
class Pill : public QObject {
    Q_OBJECT
public:
    /// `surface` is what the view is drawn on: a QWidget or a QWindow.
    explicit Pill(QObject* surface, QObject* parent = nullptr);
    ~Pill() override;
    /// @param most  px: what is wider goes on in another line
    void say(const QString& text, const QColor& border, int most = 100000);
    /// Centred at a point of the surface, kept inside it.
    void placeAt(const QPointF& centre);
    void setVisible(bool visible);
    void hide() { setVisible(false); }
    /// The mouse goes on to what lies under it: a label that follows the hand is never in its way.
    void letThrough();
    [[nodiscard]] bool isVisible() const;
    [[nodiscard]] QString text() const;
    [[nodiscard]] QRect geometry() const { return m_place; }

Q_SIGNALS:
    void clicked();

private:
    class Face;
    class WidgetFace;
    class WindowFace;
    QObject* m_surface;
    std::unique_ptr<Face> m_face;
    QRect m_place;
};

} // namespace slab::ui
