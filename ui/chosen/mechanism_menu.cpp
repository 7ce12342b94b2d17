#include "ui/chosen/mechanism_menu.h"
#include <QMenu>
#include <QToolButton>

namespace slab::ui {

namespace {

QAction* entryFor(const MechanismWords& kind, QMenu* menu) {
    QString words = QString::fromStdString(kind.key);
    words[0] = words[0].toUpper();
    QAction* action = menu->addAction(words);
    action->setToolTip(QString::fromStdString(kind.words));
    action->setData(QString::fromStdString(kind.key));
    return action;
}

} // namespace

QMenu* mechanismsMenu(QWidget* parent, const std::function<void(const MechanismWords&)>& taken) {
    auto* menu = new QMenu(parent);
    menu->setAccessibleName("Mechanisms");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->setToolTipsVisible(true);
    for (const MechanismWords& kind : mechanismWords())
        QObject::connect(entryFor(kind, menu), &QAction::triggered, parent, [taken, &kind] { taken(kind); });
    return menu;
}

void fillMechanisms(QToolButton* button, const std::function<void(const MechanismWords*)>& taken) {
    button->setCheckable(true);
    button->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(button);
    menu->setToolTipsVisible(true);
    for (const MechanismWords& kind : mechanismWords()) {
        QAction* action = entryFor(kind, menu);
        action->setCheckable(true);
        // Ticked by the click already: an unticked one was in hand.
        QObject::connect(action, &QAction::triggered, button,
                         [taken, &kind](bool on) { taken(on ? &kind : nullptr); });
    }
    button->setMenu(menu);
}

void markMechanism(QToolButton* button, const MechanismWords* kind) {
    button->setChecked(kind != nullptr);
    for (QAction* action : button->menu()->actions())
        action->setChecked(kind && action->data().toString() == QString::fromStdString(kind->key));
}

const MechanismWords* mechanismNamed(const std::string& key) {
    for (const MechanismWords& kind : mechanismWords())
        if (kind.key == key) return &kind;
    return nullptr;
}

} // namespace slab::ui
