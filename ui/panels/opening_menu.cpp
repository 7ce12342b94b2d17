#include "ui/panels/opening_menu.h"
#include <QMenu>
#include <QToolButton>

namespace slab::ui {

void fillOpenings(QToolButton* button, const std::function<void(const OpeningKind*)>& taken) {
    button->setCheckable(true);
    button->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(button);
    menu->setToolTipsVisible(true);
    for (const OpeningKind& kind : openingKinds()) {
        QString words = QString::fromStdString(kind.key);
        words[0] = words[0].toUpper();
        QAction* action = menu->addAction(words);
        action->setCheckable(true);
        action->setToolTip(QString::fromStdString(kind.words));
        action->setData(QString::fromStdString(kind.key));
        // Ticked by the click already: an unticked one was in hand.
        QObject::connect(action, &QAction::triggered, button,
                         [taken, &kind](bool on) { taken(on ? &kind : nullptr); });
    }
    button->setMenu(menu);
}

void markOpening(QToolButton* button, const OpeningKind* kind) {
    button->setChecked(kind != nullptr);
    for (QAction* action : button->menu()->actions())
        action->setChecked(kind && action->data().toString() == QString::fromStdString(kind->key));
}

} // namespace slab::ui
