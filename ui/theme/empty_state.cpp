#include "ui/theme/empty_state.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace slab::ui {

EmptyState::EmptyState(const QString& words, const QString& button, QWidget* parent)
    : QWidget(parent), m_words(new QLabel(words)), m_button(new QPushButton(button)) {
    auto* all = new QVBoxLayout(this);
    all->addStretch(1);
    m_words->setWordWrap(true);
    m_words->setAlignment(Qt::AlignCenter);
    m_words->setProperty("role", "quiet");
    m_words->setFont(Theme::words(13));
    all->addWidget(m_words);
    all->addSpacing(8);
    explain(m_button, button.isEmpty() ? tr("Next step") : button, words);
    m_button->setVisible(!button.isEmpty());
    all->addWidget(m_button, 0, Qt::AlignHCenter);
    all->addStretch(2);
    connect(m_button, &QPushButton::clicked, this, &EmptyState::clicked);
}

void EmptyState::setWords(const QString& words) {
    m_words->setText(words);
    m_button->setToolTip(words);
}

void EmptyState::setButton(const QString& words) {
    m_button->setText(words);
    m_button->setAccessibleName(words);
}

} // namespace slab::ui
