#pragma once
// A menu of kinds that a click can put in: openings, mechanisms. A kind has a key and words that explain it.
#include <QMenu>
#include <QToolButton>
#include <functional>
#include <string>

namespace slab::ui {

/// The entry of one kind: its key as a word, its words as the tip.
template <class Kind>
QAction* kindEntry(const Kind& kind, QMenu* menu) {
    QString words = QString::fromStdString(kind.key);
    words[0] = words[0].toUpper();
    QAction* action = menu->addAction(words);
    action->setToolTip(QString::fromStdString(kind.words));
    action->setData(QString::fromStdString(kind.key));
    return action;
}

/// Opens a menu with its first entry chosen, so that Return or the arrows take it from there.
inline void popUp(QMenu* menu, const QPoint& at) {
    menu->popup(at);
    if (!menu->actions().isEmpty()) menu->setActiveAction(menu->actions().first());
}

/// Gives a button the menu. @param taken  called with the kind that was chosen; null = the one in hand again
template <class Kind, class Kinds>
void fillKinds(QToolButton* button, const Kinds& kinds, const std::function<void(const Kind*)>& taken) {
    button->setCheckable(true);
    button->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(button);
    menu->setToolTipsVisible(true);
    for (const Kind& kind : kinds) {
        QAction* action = kindEntry(kind, menu);
        action->setCheckable(true);
        // Ticked by the click already: an unticked one was in hand.
        QObject::connect(action, &QAction::triggered, button,
                         [taken, &kind](bool on) { taken(on ? &kind : nullptr); });
    }
    button->setMenu(menu);
}

/// Shows which kind is in hand; null = none.
template <class Kind>
void markKind(QToolButton* button, const Kind* kind) {
    button->setChecked(kind != nullptr);
    for (QAction* action : button->menu()->actions())
        action->setChecked(kind && action->data().toString() == QString::fromStdString(kind->key));
}

} // namespace slab::ui
