#pragma once
#include <QFrame>
#include <functional>

class QLabel;
class QPushButton;
class QTimer;
class QToolButton;

namespace slab::ui {

/// One line under the top bar for what just happened or could not be done; it waits, it never blocks.
class Notice : public QFrame {
    Q_OBJECT
public:
    enum class Kind { good, running, bad };
    explicit Notice(QWidget* parent = nullptr);
    /// @param action  what the button does; no button when its text is empty
    void tell(Kind kind, const QString& words, const QString& button = {}, std::function<void()> action = {});
    [[nodiscard]] QString words() const;

private:
    class SeverityMark* m_mark;
    QLabel* m_words;
    QPushButton* m_button;
    QToolButton* m_close;
    std::function<void()> m_action;
    QTimer* m_hide;
};

} // namespace slab::ui
