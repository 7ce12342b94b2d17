#pragma once
#include <QWidget>
#include <optional>

namespace slab::ui {

class RuleStrip;
class Session;

/// What is to spare over the scale, one line for each condition, straight above the rule and on its scale.
/// The pointer reads, a click sets the scale; with the keys the arrows, Page Up and Down, Home and End read
/// and Return sets.
class MarginPlot : public QWidget {
    Q_OBJECT
public:
    MarginPlot(Session* session, RuleStrip* rule, QWidget* parent = nullptr);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    /// The scale that is read; nothing while the pointer is elsewhere and no key has asked.
    [[nodiscard]] std::optional<double> reading() const { return m_reading; }
    /// What is read there, for people who do not see the lines.
    [[nodiscard]] QString wordsAt(double scale) const;

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void read(std::optional<double> scale);
    Session* m_session;
    RuleStrip* m_rule;
    std::optional<double> m_reading;
};

} // namespace slab::ui
