#pragma once
#include <QFrame>

class QHBoxLayout;
class QLabel;
class QPainter;
class QVBoxLayout;

namespace slab::ui {

/// Sizes of the look, px.
namespace space {
constexpr int between = 12; ///< cards
constexpr int inside = 14;  ///< from a card's border to what it holds
constexpr int row = 6;
} // namespace space

/// White sheet with a hairline, 8 px corners, a bold title on the left and a quiet note on the right.
class Card : public QFrame {
    Q_OBJECT
public:
    explicit Card(const QString& title, QWidget* parent = nullptr);
    void setTitle(const QString& title);
    void setNote(const QString& note); ///< shortened as an ElidedLabel; whole as a tooltip
    /// The row of title and note, for a button more.
    [[nodiscard]] QHBoxLayout* strip() const { return m_strip; }
    /// Where the content goes.
    [[nodiscard]] QVBoxLayout* body() const { return m_body; }
    void setBare(); ///< no strip: the content says what it is
    [[nodiscard]] QLabel* titleLabel() const { return m_title; }

private:
    QHBoxLayout* m_strip;
    QVBoxLayout* m_body;
    QLabel* m_title;
    class ElidedLabel* m_note;
};

/// The white sheet with its hairline under a widget that paints itself; leaves pen and brush of the outline.
void paintSheet(QPainter& painter, const QWidget& widget);

/// A label of one line. Where there is no room, its last parts (set off by " · ") go first, and what is left
/// gives way in the middle.
class ElidedLabel : public QFrame {
    Q_OBJECT
public:
    explicit ElidedLabel(const QString& text = {}, QWidget* parent = nullptr);
    void setText(const QString& text);
    [[nodiscard]] QString text() const { return m_text; }
    [[nodiscard]] QString shown() const; ///< what there is room for
    void setQuiet(bool quiet);
    void setAlignment(Qt::Alignment alignment);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_text;
    bool m_quiet = false;
    Qt::Alignment m_alignment = Qt::AlignLeft | Qt::AlignVCenter;
};

/// Name and tooltip at once: every control says what it is and what the builder gets from it.
void explain(QWidget* widget, const QString& name, const QString& tip);

} // namespace slab::ui
