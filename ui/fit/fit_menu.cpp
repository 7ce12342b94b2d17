#include "ui/fit/fit_menu.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/chosen_menu.h"
#include <QMenu>

namespace slab::ui {

QMenu* fitMenu(Session* session, FitHand* hand, QWidget* parent, const std::optional<MechanismSpot>& spot,
               double step) {
    QMenu* menu = chosenMenu(session, parent);
    menu->addSeparator();
    for (const MechanismWords& kind : mechanismWords()) {
        const bool round = kind.kind == MechanismKind::belt && chosenWheels(*session).size() >= 2;
        QString words = QString::fromStdString(kind.key);
        words[0] = words[0].toUpper();
        QAction* action = menu->addAction(words + (round ? " round the chosen wheels" : " here"));
        action->setToolTip(QString::fromStdString(kind.words));
        action->setEnabled(round || spot.has_value());
        QObject::connect(action, &QAction::triggered, hand,
                         [session, hand, spot, step, kind = kind.kind, round] {
                             if (round)
                                 beltRoundChosen(*session);
                             else
                                 hand->placeMechanism(kind, *spot, step);
                         });
    }
    return menu;
}

} // namespace slab::ui
