#pragma once
#include "ui/theme/card.h"
#include <functional>

class QToolButton;

namespace slab::ui {

/// One of the views with its title strip. A double click on the strip, its button or a key lets the
/// view fill the window and come back.
class ViewFrame : public Card {
    Q_OBJECT
public:
    ViewFrame(const QString& title, const QString& key, QWidget* view, QWidget* parent = nullptr);
    [[nodiscard]] QWidget* view() const { return m_view; }
    [[nodiscard]] QString name() const { return m_name; }
    void setFilling(bool filling);
    /// One more button in the title strip, before the one that fills the window.
    QToolButton* addButton(const QString& words, const QString& name, const QString& tip,
                           std::function<void()> deed);

Q_SIGNALS:
    void fillWanted();

protected:
    void mouseDoubleClickEvent(QMouseEvent* event) override;

private:
    QString m_name, m_key;
    QWidget* m_view;
    QToolButton* m_fill;
};

} // namespace slab::ui
