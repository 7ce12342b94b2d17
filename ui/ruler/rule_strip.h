#pragma once
#include "core/evaluate/evaluate.h"
#include <QWidget>
#include <optional>
#include <utility>

class QTimer;

namespace slab::ui {

class Session;

/// A carpenter's rule over a range of scales. Bands are told by pattern and word as well as colour; a handle
/// is dragged by mouse, arrow keys, Page Up and Down, Home, End or the wheel; Ctrl and the wheel show more or
/// less of it.
class RuleStrip : public QWidget {
    Q_OBJECT
public:
    explicit RuleStrip(Session* session, QWidget* parent = nullptr);
    [[nodiscard]] double scale() const; ///< of the document; 1 if it cannot be read
    [[nodiscard]] double xOf(double scale) const;
    [[nodiscard]] double scaleAt(double x) const;
    [[nodiscard]] double smallStep() const; ///< one arrow key
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    /// Without flags and sheet counts, where height is short.
    void setSlim(bool slim);
    /// Sets the document's scale as part of the gesture that is going on.
    void moveTo(double scale);
    /// A gesture of its own: one undo step.
    void setTo(double scale);
    [[nodiscard]] std::pair<double, double> range() const; ///< of scales that the rule shows
    /// What the rule says at a scale: "scale 0.4: fits, 5 sheets".
    [[nodiscard]] QString wordsAt(double scale) const;

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool event(QEvent* event) override;

private:
    void startGesture();
    void endGesture();
    void zoom(double factor, double around);
    void speak(); ///< tells screen readers that the value has changed

    Session* m_session;
    int m_gesture = 0;
    bool m_moving = false, m_held = false, m_slim = false;
    double m_grab = 0; ///< from the handle to the mouse when it was grabbed, px
    QTimer* m_wheelRest;
};

/// Steps between long ticks and short ticks for a range shown over so many pixels.
struct TickSteps {
    double labelled = 0.1, plain = 0.01;
    int decimals = 1;
};
[[nodiscard]] TickSteps tickSteps(double range, double pixels);

/// A scale as the builder would type it: at most four digits behind the point, no needless zeros.
[[nodiscard]] QString scaleText(double scale);

} // namespace slab::ui
