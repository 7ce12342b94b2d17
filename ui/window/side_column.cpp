#include "ui/window/side_column.h"
#include "ui/theme/theme.h"
#include <QButtonGroup>
#include <QGridLayout>
#include <QIcon>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace slab::ui {

SideColumn::SideColumn(const QString& name, int buttonsPerRow, bool scrolls, QWidget* parent)
    : QWidget(parent), m_name(name), m_perRow(buttonsPerRow), m_group(new QButtonGroup(this)),
      m_chooser(new QWidget), m_buttons(new QGridLayout(m_chooser)), m_stack(new QStackedWidget),
      m_pile(new QWidget), m_pileLayout(new QVBoxLayout(m_pile)),
      m_scroll(scrolls ? new QScrollArea : nullptr) {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(space::row);
    m_buttons->setContentsMargins(0, 0, 0, 0);
    m_buttons->setSpacing(4);
    m_pileLayout->setContentsMargins(0, 0, 0, 0);
    m_pileLayout->setSpacing(space::between);
    all->addWidget(m_chooser);
    all->addWidget(m_stack, 1);
    if (m_scroll) {
        m_pile->setObjectName("page");
        m_scroll->setWidget(m_pile);
        m_scroll->setWidgetResizable(true);
        m_scroll->setFrameShape(QFrame::NoFrame);
        m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        m_scroll->setFocusPolicy(Qt::NoFocus);
        explain(m_scroll, name, "All tables one below the other.");
        m_pileLayout->addStretch(1);
    }
    all->addWidget(m_scroll ? static_cast<QWidget*>(m_scroll) : m_pile, 1);
    m_chooser->hide();
    m_stack->hide();
}

void SideColumn::add(const QString& name, QWidget* part, int stretch) {
    auto* button = new QPushButton(name);
    button->setCheckable(true);
    button->setFont(Theme::words(12));
    button->setStyleSheet("padding-left: 4px; padding-right: 4px;");
    explain(button, "Show " + name, "Shows " + name + " here.");
    const int n = static_cast<int>(m_parts.size());
    m_buttons->addWidget(button, n / m_perRow, n % m_perRow);
    m_buttons->setColumnStretch(n % m_perRow, 1);
    m_group->addButton(button, n);
    if (n == 0) button->setChecked(true);
    connect(button, &QPushButton::clicked, this, [this, n] {
        m_stack->setCurrentIndex(n);
        Q_EMIT chosen();
    });
    m_parts.push_back({name, part, stretch, button});
    addToPile(part, stretch);
}

void SideColumn::addToPile(QWidget* part, int stretch) {
    // A scrolling pile ends in empty room, so that its parts are no higher than they need.
    m_pileLayout->insertWidget(m_pileLayout->count() - (m_scroll ? 1 : 0), part, stretch);
}

void SideColumn::setFolded(bool folded) {
    if (folded == m_folded) return;
    m_folded = folded;
    for (auto& part : m_parts) {
        if (folded) {
            m_pileLayout->removeWidget(part.widget);
            m_stack->addWidget(part.widget);
        } else {
            m_stack->removeWidget(part.widget);
            addToPile(part.widget, part.stretch);
            part.widget->show();
        }
    }
    m_chooser->setVisible(folded);
    m_stack->setVisible(folded);
    (m_scroll ? static_cast<QWidget*>(m_scroll) : m_pile)->setVisible(!folded);
    if (folded) m_stack->setCurrentIndex(std::max(0, m_group->checkedId()));
    Q_EMIT foldedChanged(folded);
}

void SideColumn::reveal(QWidget* part) {
    for (std::size_t i = 0; i < m_parts.size(); ++i)
        if (m_parts[i].widget == part) {
            m_parts[i].button->setChecked(true);
            if (m_folded)
                m_stack->setCurrentIndex(static_cast<int>(i));
            else if (m_scroll)
                m_scroll->ensureWidgetVisible(part, 0, 0);
        }
}

void SideColumn::bringIntoSight(const QWidget* in, const QRect& place) {
    if (m_folded || !m_scroll) return;
    constexpr int around = 30; // px
    const QPoint at = in->mapTo(m_scroll->widget(), place.center());
    m_scroll->ensureVisible(at.x(), at.y(), 0, around);
}

QPushButton* SideColumn::button(const QWidget* part) const {
    for (const Part& p : m_parts)
        if (p.widget == part) return p.button;
    return nullptr;
}

void SideColumn::mark(QWidget* part, const QString& words, const QIcon& shape) {
    for (std::size_t i = 0; i < m_parts.size(); ++i) {
        Part& p = m_parts[i];
        if (p.widget != part) continue;
        const QString text = words.isEmpty() ? p.name : p.name + " · " + words;
        p.button->setText(shape.isNull() ? text : ' ' + text); // off the shape
        p.button->setIcon(shape);
        explain(p.button, "Show " + text, "Shows " + p.name + " here.");
        // The words need more than their even share.
        m_buttons->setColumnStretch(static_cast<int>(i) % m_perRow, words.isEmpty() ? 1 : 2);
    }
}

} // namespace slab::ui
