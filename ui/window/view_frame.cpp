#include "ui/window/view_frame.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QMouseEvent>
#include <QToolButton>
#include <QVBoxLayout>

namespace slab::ui {

ViewFrame::ViewFrame(const QString& title, const QString& key, QWidget* view, QWidget* parent)
    : Card(title, parent), m_name(title), m_key(key), m_view(view), m_fill(new QToolButton) {
    m_fill->setObjectName("flat");
    m_fill->setFont(Theme::words(12));
    strip()->addWidget(m_fill);
    body()->addWidget(view, 1);
    setMinimumWidth(230);
    titleLabel()->setToolTip("Double click to let this view fill the window, or press " + key + ".");
    connect(m_fill, &QToolButton::clicked, this, &ViewFrame::fillWanted);
    setFilling(false);
}

void ViewFrame::setFilling(bool filling) {
    m_fill->setText(filling ? "Back" : "Fill");
    explain(m_fill, filling ? "Bring the other views back" : "Let " + m_name + " fill the window",
            (filling ? QString("Brings the other views back (%1 or Escape).")
                     : QString("Gives this view the whole window (%1); the same key brings the others back."))
                .arg(m_key));
}

QToolButton* ViewFrame::addButton(const QString& words, const QString& name, const QString& tip,
                                  std::function<void()> deed) {
    auto* button = new QToolButton;
    button->setObjectName("flat");
    button->setFont(Theme::words(12));
    button->setText(words);
    explain(button, name, tip);
    strip()->insertWidget(strip()->indexOf(m_fill), button);
    connect(button, &QToolButton::clicked, this, [deed = std::move(deed)] { deed(); });
    return button;
}

void ViewFrame::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->position().y() < m_view->geometry().top()) Q_EMIT fillWanted();
}

} // namespace slab::ui
