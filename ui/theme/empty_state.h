#pragma once
#include <QWidget>

class QLabel;
class QPushButton;

namespace slab::ui {

/// What a view shows when it has nothing: one sentence on what to do next, and at most one button.
class EmptyState : public QWidget {
    Q_OBJECT
public:
    explicit EmptyState(const QString& words, const QString& button = {}, QWidget* parent = nullptr);
    void setWords(const QString& words);
    void setButton(const QString& words); ///< of one that has a button
    /// Little: while it is hidden behind a full view it must not keep that view from being made small.
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, 60}; }

Q_SIGNALS:
    void clicked();

private:
    QLabel* m_words;
    QPushButton* m_button;
};

} // namespace slab::ui
